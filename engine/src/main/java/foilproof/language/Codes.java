package foilproof.language;

import java.util.ArrayList;
import java.util.List;

/** The G and M codes of both dialects with their modal groups: NISTIR 6556 table 4, section 3.4. */
final class Codes {
    static final int NON_MODAL = 0;
    static final int MOTION = 1;
    static final int PLANE = 2;
    static final int DISTANCE = 3;
    static final int ARC_DISTANCE = 4;
    static final int FEED_MODE = 5;
    static final int UNITS = 6;
    static final int RADIUS_COMP = 7;
    static final int LENGTH = 8;
    static final int RETURN = 10;
    static final int SYSTEM = 12;
    static final int PATH = 13;
    static final int GROUPS = 14;

    static final int STOP = 4;
    static final int TOOL = 6;
    static final int SPINDLE = 7;
    static final int COOLANT = 8;
    static final int OVERRIDES = 9;
    static final int M_GROUPS = 10;

    /** Group of each G code by ten times its number; -1 not in the language. */
    private static final byte[] G_GROUP = new byte[1000];
    /** Whether only the common language has the code. */
    private static final boolean[] COMMON_ONLY = new boolean[1000];

    private static final byte[] M_GROUP = new byte[100];

    static {
        java.util.Arrays.fill(G_GROUP, (byte) -1);
        java.util.Arrays.fill(M_GROUP, (byte) -1);
        define(NON_MODAL, 40, 100, 280, 300, 530, 920, 921, 922, 923);
        define(MOTION, 0, 10, 20, 30, 382, 800, 810, 820, 830, 840, 850, 860, 870, 880, 890);
        define(PLANE, 170, 180, 190);
        define(DISTANCE, 900, 910);
        define(FEED_MODE, 930, 940);
        define(UNITS, 200, 210);
        define(RADIUS_COMP, 400, 410, 420);
        define(LENGTH, 430, 490);
        define(RETURN, 980, 990);
        define(SYSTEM, 540, 550, 560, 570, 580, 590, 591, 592, 593);
        define(PATH, 610, 611, 640);
        common(MOTION, 383, 384, 385, 730);
        common(ARC_DISTANCE, 901, 911);
        common(LENGTH, 431);
        defineM(STOP, 0, 1, 2, 30, 60);
        defineM(TOOL, 6);
        defineM(SPINDLE, 3, 4, 5);
        defineM(COOLANT, 7, 8, 9);
        defineM(OVERRIDES, 48, 49);
    }

    private Codes() {}

    private static void define(int group, int... tenths) {
        for (int code : tenths) {
            G_GROUP[code] = (byte) group;
        }
    }

    private static void common(int group, int... tenths) {
        define(group, tenths);
        for (int code : tenths) {
            COMMON_ONLY[code] = true;
        }
    }

    private static void defineM(int group, int... numbers) {
        for (int code : numbers) {
            M_GROUP[code] = (byte) group;
        }
    }

    /** The modal group, or -1 where the dialect does not have the code. */
    static int groupOfG(int tenths, Dialect dialect) {
        if (tenths < 0 || tenths >= G_GROUP.length || COMMON_ONLY[tenths] && dialect == Dialect.STRICT) {
            return -1;
        }
        return G_GROUP[tenths];
    }

    static boolean isCommonOnly(int tenths) {
        return tenths >= 0 && tenths < COMMON_ONLY.length && COMMON_ONLY[tenths];
    }

    static int groupOfM(int number) {
        return number < 0 || number >= M_GROUP.length ? -1 : M_GROUP[number];
    }

    /** The code as it is written: {@code G38.2}. */
    static String nameOfG(int tenths) {
        return tenths % 10 == 0 ? "G" + tenths / 10 : "G" + tenths / 10 + "." + tenths % 10;
    }

    static List<String> namesOfG(Dialect dialect) {
        List<String> names = new ArrayList<>();
        for (int tenths = 0; tenths < G_GROUP.length; tenths++) {
            if (groupOfG(tenths, dialect) >= 0) {
                names.add(nameOfG(tenths));
            }
        }
        return names;
    }

    static String nameOfGroup(int group) {
        return switch (group) {
            case NON_MODAL -> "non-modal codes";
            case MOTION -> "motion";
            case PLANE -> "plane";
            case DISTANCE -> "distance mode";
            case ARC_DISTANCE -> "arc centre mode";
            case FEED_MODE -> "feed mode";
            case UNITS -> "units";
            case RADIUS_COMP -> "cutter radius compensation";
            case LENGTH -> "tool length offset";
            case RETURN -> "return level";
            case SYSTEM -> "work coordinate system";
            default -> "path mode";
        };
    }

    static String nameOfMGroup(int group) {
        return switch (group) {
            case STOP -> "stopping";
            case TOOL -> "tool change";
            case SPINDLE -> "spindle";
            case COOLANT -> "coolant";
            default -> "overrides";
        };
    }

    static boolean isCycle(int tenths) {
        return tenths >= 810 && tenths <= 890 || tenths == 730;
    }

    static boolean isProbe(int tenths) {
        return tenths >= 382 && tenths <= 385;
    }

    static boolean isArc(int tenths) {
        return tenths == 20 || tenths == 30;
    }
}

package foilproof.language;

import foilproof.geom.ArcSweep;
import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What a program does, as canonical commands in the order of their execution. Immutable once handed out; held as
 * parallel arrays, because a program has some 60,000 moves and a record for each would cost more than reading it.
 *
 * <p>Motion commands carry their end point twice: in program coordinates and program units, as the text means it, and
 * as the machine position of the axes in millimetres ({@code program x mmPerUnit + origin}, where the origin is that of
 * the work system plus the G92 offset plus the tool length offset). A motion starts where the one before ended:
 * changes of origin never move the axes.
 */
public final class CanonicalProgram {
    /** Flag of a motion: it belongs to a canned cycle. */
    public static final int IN_CYCLE = 1;
    /** Flag of a motion: its end was given in machine coordinates (G53) or is a home (G28, G30). */
    public static final int MACHINE_COORDINATES = 2;
    /** Flag of a motion: the probe tripped at its end. */
    public static final int PROBE_TRIPPED = 4;
    /** Flag of a motion: cutter radius compensation shaped it. */
    public static final int COMPENSATED = 8;
    /** Flag of a motion: nobody knows its end on X, because machine positions are not known. */
    public static final int END_X_UNKNOWN = 16;
    /** The same on Y. */
    public static final int END_Y_UNKNOWN = 32;
    /** The same on Z. */
    public static final int END_Z_UNKNOWN = 64;

    private static final CommandKind[] KINDS = CommandKind.values();
    private static final Plane[] PLANES = Plane.values();

    private final String file;
    private final double[] startMm;
    private int count;
    private byte[] kinds;
    private int[] lines;
    private int[] columns;
    private int[] refs;

    private int motionCount;
    private double[] ends;
    private double[] feeds;
    private int[] frames;
    private int[] arcRefs;
    private byte[] flags;

    private int arcCount;
    private double[] arcCentres = new double[0];
    private int[] arcTurns = new int[0];

    private int frameCount;
    private double[] frameTable = new double[8];

    private int valueCount;
    private double[] values = new double[32];
    private final List<String> texts = new ArrayList<>();

    CanonicalProgram(String file, double startXMm, double startYMm, double startZMm, int expected) {
        this.file = file;
        this.startMm = new double[] {startXMm, startYMm, startZMm};
        int capacity = Math.max(16, expected);
        kinds = new byte[capacity];
        lines = new int[capacity];
        columns = new int[capacity];
        refs = new int[capacity];
        ends = new double[3 * capacity];
        feeds = new double[capacity];
        frames = new int[capacity];
        arcRefs = new int[capacity];
        flags = new byte[capacity];
    }

    /** Number of commands. */
    public int size() {
        return count;
    }

    /** Number of commands that move axes. */
    public int motionCount() {
        return motionCount;
    }

    /** Name of the program's file. */
    public String file() {
        return file;
    }

    /** Kind of command {@code i}. */
    public CommandKind kind(int i) {
        return KINDS[kinds[check(i)]];
    }

    /** Physical line, from 1. */
    public int line(int i) {
        return lines[check(i)];
    }

    /** First column of the block that the command comes from, from 1. */
    public int column(int i) {
        return columns[check(i)] >>> 16;
    }

    /** One past the last column. */
    public int endColumn(int i) {
        return columns[check(i)] & 0xffff;
    }

    /** Where in the program the command comes from. */
    public SourceSpan span(int i) {
        return new SourceSpan(file, line(i), column(i), endColumn(i));
    }

    /** Whether the command moves axes. */
    public boolean isMotion(int i) {
        return kind(i).isMotion();
    }

    /** Whether the command is a move at rapid speed. */
    public boolean isRapid(int i) {
        return kinds[check(i)] == CommandKind.STRAIGHT_TRAVERSE.ordinal();
    }

    /** Start of a motion on axis 0 X, 1 Y, 2 Z: machine position, millimetres. */
    public double startMm(int i, int axis) {
        int m = motion(i);
        return m == 0 ? startMm[axis] : endOfMotionMm(m - 1, axis);
    }

    /** End of a motion on axis 0 X, 1 Y, 2 Z: machine position, millimetres. */
    public double endMm(int i, int axis) {
        return endOfMotionMm(motion(i), axis);
    }

    /** End of a motion on an axis in program coordinates, program units. */
    public double programEnd(int i, int axis) {
        return ends[3 * motion(i) + axis];
    }

    /** Millimetres in a program unit when the motion ran: 1 or 25.4. */
    public double mmPerUnit(int i) {
        return frameTable[4 * frames[motion(i)]];
    }

    /**
     * The program's zero on an axis while a motion ran, or from SET_ORIGIN on: machine position of the axes,
     * millimetres; the sum of system origin, G92 offset and tool length offset.
     */
    public double originMm(int i, int axis) {
        int frame = kind(i) == CommandKind.SET_ORIGIN ? refs[i] : frames[motion(i)];
        return frameTable[4 * frame + 1 + axis];
    }

    /**
     * Feed of a motion at feed, millimetres a minute along the path; NaN where none was ever given or the time is
     * given instead ({@link #moveS(int)}); not meant for traverses.
     */
    public double feedMmPerMin(int i) {
        double feed = feeds[motion(i)];
        return feed < 0 ? Double.NaN : feed;
    }

    /** Time that an inverse time move takes, seconds; NaN for all others. */
    public double moveS(int i) {
        double feed = feeds[motion(i)];
        return feed < 0 ? -feed : Double.NaN;
    }

    /** The flags of a motion, bits as named in this class. */
    public int flags(int i) {
        return flags[motion(i)];
    }

    /** Plane of an arc. */
    public Plane plane(int i) {
        return PLANES[arcTurns[2 * arc(i)]];
    }

    /**
     * Turn of an arc: positive counter-clockwise seen from the positive end of the axis across the plane, negative
     * clockwise; 1 is anything up to one full turn. Start and end at one place is a full turn.
     */
    public int turn(int i) {
        return arcTurns[2 * arc(i) + 1];
    }

    /** Centre of an arc on the first axis of its plane: machine position, millimetres. */
    public double centreFirstMm(int i) {
        return centreMm(i, 0, plane(i).first());
    }

    /** Centre of an arc on the second axis of its plane: machine position, millimetres. */
    public double centreSecondMm(int i) {
        return centreMm(i, 1, plane(i).second());
    }

    /** Centre of an arc on the first axis of its plane, program coordinates and units. */
    public double programCentreFirst(int i) {
        return arcCentres[2 * arc(i)];
    }

    /** Centre of an arc on the second axis of its plane, program coordinates and units. */
    public double programCentreSecond(int i) {
        return arcCentres[2 * arc(i) + 1];
    }

    /**
     * Signed sweep of an arc, radians: positive counter-clockwise seen from the positive end of the axis across the
     * plane. Start and end nearer than 1e-6 mm are a full turn.
     */
    public double sweepRad(int i) {
        Plane plane = plane(i);
        double centreFirst = centreFirstMm(i);
        double centreSecond = centreSecondMm(i);
        return ArcSweep.sweepRad(
                startMm(i, plane.first()) - centreFirst,
                startMm(i, plane.second()) - centreSecond,
                endMm(i, plane.first()) - centreFirst,
                endMm(i, plane.second()) - centreSecond,
                turn(i),
                Arcs.SAME_POINT_MM);
    }

    /** The number that {@link CommandKind} says, NaN where it says none. */
    public double value(int i) {
        int ref = refs[check(i)];
        return kind(i).isMotion() || kind(i) == CommandKind.SET_ORIGIN || ref < 0 ? Double.NaN : values[2 * ref];
    }

    /** The second number that {@link CommandKind} says, NaN where it says none. */
    public double value2(int i) {
        int ref = refs[check(i)];
        return kind(i).isMotion() || kind(i) == CommandKind.SET_ORIGIN || ref < 0 ? Double.NaN : values[2 * ref + 1];
    }

    /** The text of a comment or message, else empty. */
    public String text(int i) {
        CommandKind kind = kind(i);
        return kind == CommandKind.COMMENT || kind == CommandKind.MESSAGE ? texts.get((int) value(i)) : "";
    }

    private double endOfMotionMm(int m, int axis) {
        int f = 4 * frames[m];
        return ends[3 * m + axis] * frameTable[f] + frameTable[f + 1 + axis];
    }

    private double centreMm(int i, int which, int axis) {
        int f = 4 * frames[motion(i)];
        return arcCentres[2 * arc(i) + which] * frameTable[f] + frameTable[f + 1 + axis];
    }

    private int check(int i) {
        if (i < 0 || i >= count) {
            throw new IndexOutOfBoundsException("command " + i + " of " + count);
        }
        return i;
    }

    private int motion(int i) {
        if (!KINDS[kinds[check(i)]].isMotion()) {
            throw new IllegalArgumentException("command " + i + " is " + kind(i) + ", no motion");
        }
        return refs[i];
    }

    private int arc(int i) {
        int arc = arcRefs[motion(i)];
        if (arc < 0) {
            throw new IllegalArgumentException("command " + i + " is " + kind(i) + ", no arc");
        }
        return arc;
    }

    // What follows is for the interpreter while it writes the program.

    void add(CommandKind kind, int line, int columnSpan) {
        push(kind, line, columnSpan, -1);
    }

    void add(CommandKind kind, int line, int columnSpan, double value, double value2) {
        if (2 * valueCount == values.length) {
            values = Arrays.copyOf(values, 2 * values.length);
        }
        values[2 * valueCount] = value;
        values[2 * valueCount + 1] = value2;
        push(kind, line, columnSpan, valueCount++);
    }

    void addText(CommandKind kind, int line, int columnSpan, String text) {
        texts.add(text);
        add(kind, line, columnSpan, texts.size() - 1.0, Double.NaN);
    }

    void addOrigin(int line, int columnSpan, int frame) {
        push(CommandKind.SET_ORIGIN, line, columnSpan, frame);
    }

    int frame(double mmPerUnit, double xMm, double yMm, double zMm) {
        for (int f = Math.max(0, frameCount - 4); f < frameCount; f++) {
            if (frameTable[4 * f] == mmPerUnit
                    && frameTable[4 * f + 1] == xMm
                    && frameTable[4 * f + 2] == yMm
                    && frameTable[4 * f + 3] == zMm) {
                return f;
            }
        }
        if (4 * frameCount == frameTable.length) {
            frameTable = Arrays.copyOf(frameTable, 2 * frameTable.length);
        }
        int at = 4 * frameCount;
        frameTable[at] = mmPerUnit;
        frameTable[at + 1] = xMm;
        frameTable[at + 2] = yMm;
        frameTable[at + 3] = zMm;
        return frameCount++;
    }

    /** {@code feed}: millimetres a minute, NaN for none, or minus the seconds that the move takes. */
    void addMotion(
            CommandKind kind,
            int line,
            int columnSpan,
            double x,
            double y,
            double z,
            int frame,
            double feed,
            int flag) {
        if (motionCount == feeds.length) {
            growMotions();
        }
        int m = motionCount++;
        ends[3 * m] = x;
        ends[3 * m + 1] = y;
        ends[3 * m + 2] = z;
        feeds[m] = feed;
        frames[m] = frame;
        flags[m] = (byte) flag;
        arcRefs[m] = -1;
        push(kind, line, columnSpan, m);
    }

    /** Makes the motion just added an arc; the centre in program coordinates. */
    void makeArc(Plane plane, double centreFirst, double centreSecond, int turn) {
        if (2 * arcCount == arcTurns.length) {
            int size = Math.max(32, 2 * arcTurns.length);
            arcTurns = Arrays.copyOf(arcTurns, size);
            arcCentres = Arrays.copyOf(arcCentres, size);
        }
        arcRefs[motionCount - 1] = arcCount;
        arcTurns[2 * arcCount] = plane.ordinal();
        arcTurns[2 * arcCount + 1] = turn;
        arcCentres[2 * arcCount] = centreFirst;
        arcCentres[2 * arcCount + 1] = centreSecond;
        arcCount++;
    }

    private void growMotions() {
        int size = feeds.length + (feeds.length >> 1) + 16;
        ends = Arrays.copyOf(ends, 3 * size);
        feeds = Arrays.copyOf(feeds, size);
        frames = Arrays.copyOf(frames, size);
        arcRefs = Arrays.copyOf(arcRefs, size);
        flags = Arrays.copyOf(flags, size);
    }

    private void push(CommandKind kind, int line, int columnSpan, int ref) {
        if (count == kinds.length) {
            int size = count + (count >> 1) + 16;
            kinds = Arrays.copyOf(kinds, size);
            lines = Arrays.copyOf(lines, size);
            columns = Arrays.copyOf(columns, size);
            refs = Arrays.copyOf(refs, size);
        }
        kinds[count] = (byte) kind.ordinal();
        lines[count] = line;
        columns[count] = columnSpan;
        refs[count++] = ref;
    }
}

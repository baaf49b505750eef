package foilproof.bench;

import foilproof.geom.Dimension;
import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Reads blank, spoil board, machine, spread, keep-outs, limits. */
final class BenchReader {
    private static final String[] COPPER = {"one side", "both sides"};
    private static final double SAME_PLACE_MM = 1e-6;

    private final Problems problems;
    private final Assumed assumed;

    BenchReader(Problems problems, Assumed assumed) {
        this.problems = problems;
        this.assumed = assumed;
    }

    private enum Copper {
        ONE_SIDE,
        BOTH_SIDES;

        String word() {
            return COPPER[ordinal()];
        }
    }

    Blank blank(Keys root, boolean sizeKnown) {
        Keys keys = root.table("blank");
        if (keys == null) {
            if (!root.has("blank")) {
                root.missing("blank", "a table: [blank] with width and height");
            }
            keys = new Keys(new Node.Tab(root.span()), "blank", new Problems());
        }
        Substrate substrate = keys.word("substrate", Substrate.values(), Substrate::word);
        if (!keys.has("substrate")) {
            assumed.taken("blank.substrate", Substrate.FR_1.word());
        }
        Keys.Num thickness = keys.length("thickness", Keys.Sign.POSITIVE, true);
        if (thickness.state() == Keys.State.ABSENT) {
            assumed.taken("blank.thickness", "1.5 mm");
        } else if (thickness.state() == Keys.State.UNKNOWN) {
            assumed.add("blank.thickness is unknown: 1.5 mm drawn, nothing that rests on it is judged");
        }
        Keys.Num foil = keys.quantity("foil", Dimension.FOIL, Keys.Sign.POSITIVE, true);
        Boolean foilKnown = keys.bool("foil_known");
        boolean foilGiven = foil.state() == Keys.State.GIVEN || foil.state() == Keys.State.BAD;
        if (foil.state() == Keys.State.ABSENT) {
            assumed.taken("blank.foil", "0.5 oz (17.4 um)");
        } else if (foil.state() == Keys.State.UNKNOWN) {
            assumed.add("blank.foil is unknown: 0.5 oz (17.4 um) drawn, half-ounce and one-ounce foil both judged");
        }
        Copper copper = keys.word("copper", Copper.values(), Copper::word);
        if (!keys.has("copper")) {
            assumed.taken("blank.copper", "one side");
        }
        double widthMm = size(keys, "width");
        double heightMm = size(keys, "height");
        Hold hold = keys.word("hold", Hold.values(), Hold::word);
        if (!keys.has("hold")) {
            assumed.taken("blank.hold", Hold.FULL_TAPE.word());
        }
        Keys.Num tape = keys.length("tape", Keys.Sign.NOT_NEGATIVE, true);
        if (!tape.given()) {
            assumed.taken("blank.tape", "0 mm");
        }
        Surface surface = surface(keys, true);
        keys.close();
        boolean both = copper == Copper.BOTH_SIDES;
        double thicknessMm = thickness.or(1.5);
        double foilMm = foil.or(Blank.HALF_OUNCE_MM);
        if (foilMm * (both ? 2 : 1) >= thicknessMm) {
            keys.problem(
                    "thickness",
                    "out-of-range",
                    "blank.thickness is no more than the foil on it.",
                    "The thickness is over all, foil included.",
                    null);
        }
        return new Blank(
                substrate == null ? Substrate.FR_1 : substrate,
                thicknessMm,
                thickness.state() != Keys.State.UNKNOWN,
                foilMm,
                foilGiven && (foilKnown == null ? !unknown(keys, "foil_known") : foilKnown)
                        || foil.state() == Keys.State.ABSENT && Boolean.TRUE.equals(foilKnown),
                both,
                widthMm,
                heightMm,
                sizeKnown,
                hold == null ? Hold.FULL_TAPE : hold,
                tape.or(0),
                surface == null ? Surface.FLAT : surface);
    }

    private static boolean unknown(Keys keys, String key) {
        return keys.node(key) instanceof Node.Scalar scalar && "unknown".equals(scalar.text());
    }

    private static double size(Keys keys, String key) {
        Keys.Num num = keys.length(key, Keys.Sign.POSITIVE, false);
        if (num.state() == Keys.State.ABSENT) {
            keys.missing(key, "\"60 mm\"");
        }
        return num.or(1);
    }

    /** The surface of a table, or null where it says none and {@code tell} is false. */
    @Nullable
    Surface surface(Keys keys, boolean tell) {
        Node node = keys.node("surface");
        if (node == null) {
            if (tell) {
                assumed.taken(keys.full("surface"), "flat");
                return Surface.FLAT;
            }
            return null;
        }
        if (node instanceof Node.Scalar scalar && "flat".equals(scalar.text())) {
            return Surface.FLAT;
        }
        String expected =
                "Expected \"flat\" or at least three touched points [[\"0 mm\", \"0 mm\", \"-0.02 mm\"], ...].";
        if (!(node instanceof Node.Arr arr)) {
            boolean word = node instanceof Node.Scalar scalar && scalar.text() != null;
            keys.problem(
                    "surface",
                    word ? "unknown-word" : "wrong-type",
                    keys.full("surface") + (word ? " is no known word." : " is " + Node.kind(node) + "."),
                    expected,
                    word ? "flat" : null);
            return Surface.FLAT;
        }
        List<Touch> touches = new ArrayList<>();
        for (int i = 0; i < arr.items().size(); i++) {
            Node item = arr.items().get(i);
            String what = keys.full("surface") + "[" + i + "]";
            if (!(item instanceof Node.Arr point) || point.items().size() != 3) {
                problems.add(item.span(), "wrong-type", what + " is not three lengths.", expected, null);
                continue;
            }
            double[] xyz = keys.quantitiesIn(point, what, Dimension.LENGTH, Keys.Sign.ANY);
            if (xyz != null) {
                touches.add(new Touch(xyz[0], xyz[1], xyz[2]));
            }
        }
        if (touches.size() == arr.items().size()) {
            checkTouches(keys, arr, touches, expected);
        }
        return new Surface(touches);
    }

    private void checkTouches(Keys keys, Node.Arr arr, List<Touch> touches, String expected) {
        Map<XyMm, Integer> places = new java.util.HashMap<>();
        for (int i = 0; i < touches.size(); i++) {
            Touch touch = touches.get(i);
            Integer other = places.putIfAbsent(new XyMm(touch.xMm(), touch.yMm()), i);
            if (other != null) {
                problems.add(
                        arr.items().get(i).span(),
                        "duplicate",
                        keys.full("surface") + "[" + i + "] touches the same place as [" + other + "].",
                        null,
                        null);
                return;
            }
        }
        if (touches.size() < 3 || onOneLine(touches)) {
            keys.problem(
                    "surface",
                    "wrong-count",
                    keys.full("surface")
                            + (touches.size() < 3
                                    ? " has " + touches.size() + " points."
                                    : " has all its points on one line."),
                    expected,
                    null);
        }
    }

    private static boolean onOneLine(List<Touch> touches) {
        Touch a = touches.get(0);
        Touch far = a;
        double farthest = 0;
        for (Touch t : touches) {
            double d = Math.max(Math.abs(t.xMm() - a.xMm()), Math.abs(t.yMm() - a.yMm()));
            if (d > farthest) {
                farthest = d;
                far = t;
            }
        }
        double ux = far.xMm() - a.xMm();
        double uy = far.yMm() - a.yMm();
        for (Touch t : touches) {
            double cross = ux * (t.yMm() - a.yMm()) - uy * (t.xMm() - a.xMm());
            if (Math.abs(cross) > SAME_PLACE_MM * farthest) {
                return false;
            }
        }
        return true;
    }

    SpoilBoard spoilBoard(Keys root) {
        Keys keys = root.table("spoil_board");
        if (keys == null) {
            assumed.add("spoil_board.thickness is not stated: contact with the table is not judged");
            return new SpoilBoard(OptionalDouble.empty());
        }
        Keys.Num thickness = keys.length("thickness", Keys.Sign.POSITIVE, true);
        if (thickness.state() == Keys.State.ABSENT || thickness.state() == Keys.State.UNKNOWN) {
            assumed.add("spoil_board.thickness is not stated: contact with the table is not judged");
        }
        keys.close();
        return new SpoilBoard(thickness.optional());
    }

    Machine machine(Keys root, Limits limits) {
        Keys keys = root.table("machine");
        if (keys == null) {
            keys = new Keys(new Node.Tab(root.span()), "machine", problems);
        }
        XyzMm travel = triple(keys, "travel", Keys.Sign.POSITIVE);
        if (travel == null && !keys.has("travel")) {
            assumed.add("machine.travel is not stated: not judged");
        }
        XyzMm blankAt = triple(keys, "blank_at", Keys.Sign.ANY);
        Machine.Language language =
                word(keys, "language", Machine.Language.values(), Machine.Language::word, Machine.Language.COMMON);
        Machine.Units units = word(keys, "units", Machine.Units.values(), Machine.Units::word, Machine.Units.UNKNOWN);
        Machine.Dwell dwell = word(keys, "dwell", Machine.Dwell.values(), Machine.Dwell::word, Machine.Dwell.SECONDS);
        boolean blockDelete = flag(keys, "block_delete", false);
        Machine.OnToolChange change = word(
                keys,
                "on_tool_change",
                Machine.OnToolChange.values(),
                Machine.OnToolChange::word,
                Machine.OnToolChange.STOP);
        boolean heightMap = flag(keys, "applies_height_map", false);
        double cornerMm = taken(keys, "corner_deviation", Dimension.LENGTH, Keys.Sign.NOT_NEGATIVE, 0.01, "0.01 mm");
        Keys.Num maxFeed = keys.quantity("max_feed", Dimension.FEED, Keys.Sign.POSITIVE, true);
        if (!maxFeed.given()) {
            assumed.add("machine.max_feed is not stated: not judged");
        }
        Machine.AxisFeeds rapid = rapid(keys);
        double acceleration = taken(keys, "acceleration", Dimension.ACCELERATION, Keys.Sign.POSITIVE, 250, "250 mm/s2");
        double[] spindle = keys.quantities("spindle", 2, Dimension.SPINDLE, Keys.Sign.NOT_NEGATIVE, true);
        if (spindle == null) {
            assumed.add("machine.spindle is not stated: the range of speeds is not judged");
        } else if (spindle[0] > spindle[1] || spindle[1] == 0) {
            keys.problem(
                    "spindle",
                    "out-of-range",
                    "machine.spindle runs from high to low.",
                    "Expected the slowest speed first: [\"8000 rpm\", \"24000 rpm\"].",
                    null);
        }
        double[] backlash = keys.quantities("backlash", 2, Dimension.LENGTH, Keys.Sign.NOT_NEGATIVE, true);
        if (backlash == null) {
            assumed.taken("machine.backlash", limits.value(LimitKey.BACKLASH) + " mm in X and Y (the limit backlash)");
        }
        double repeatMm = taken(keys, "repeatability", Dimension.LENGTH, Keys.Sign.NOT_NEGATIVE, 0.02, "0.02 mm");
        double[] nut = keys.quantities("collet_nut", 2, Dimension.LENGTH, Keys.Sign.POSITIVE, true);
        if (nut == null) {
            assumed.add("machine.collet_nut is not stated: contact of the nut is not judged");
        }
        double changeS = taken(keys, "tool_change", Dimension.TIME, Keys.Sign.NOT_NEGATIVE, 120, "120 s");
        boolean extraction = flag(keys, "extraction", false);
        keys.close();
        return new Machine(
                travel,
                blankAt,
                language,
                units,
                dwell,
                blockDelete,
                change,
                heightMap,
                cornerMm,
                maxFeed.optional(),
                rapid,
                acceleration,
                spindle == null ? OptionalDouble.empty() : OptionalDouble.of(spindle[0]),
                spindle == null ? OptionalDouble.empty() : OptionalDouble.of(spindle[1]),
                backlash == null
                        ? new XyMm(limits.value(LimitKey.BACKLASH), limits.value(LimitKey.BACKLASH))
                        : new XyMm(backlash[0], backlash[1]),
                repeatMm,
                nut == null ? null : new Machine.ColletNut(nut[0], nut[1]),
                changeS,
                extraction);
    }

    private static @Nullable XyzMm triple(Keys keys, String key, Keys.Sign sign) {
        double[] v = keys.quantities(key, 3, Dimension.LENGTH, sign, true);
        return v == null ? null : new XyzMm(v[0], v[1], v[2]);
    }

    private Machine.AxisFeeds rapid(Keys keys) {
        Node node = keys.node("rapid");
        if (node instanceof Node.Arr) {
            double[] v = keys.quantities("rapid", 3, Dimension.FEED, Keys.Sign.POSITIVE, true);
            return v == null ? new Machine.AxisFeeds(1, 1, 1) : new Machine.AxisFeeds(v[0], v[1], v[2]);
        }
        Keys.Num one = keys.quantity("rapid", Dimension.FEED, Keys.Sign.POSITIVE, true);
        if (one.given()) {
            return new Machine.AxisFeeds(one.value(), one.value(), one.value());
        }
        assumed.taken("machine.rapid", "2500 mm/min in X and Y, 1000 mm/min in Z");
        return new Machine.AxisFeeds(2500, 2500, 1000);
    }

    private <E extends Enum<E>> E word(
            Keys keys, String key, E[] values, java.util.function.Function<E, String> wordOf, E standard) {
        E value = keys.word(key, values, wordOf);
        if (!keys.has(key)) {
            assumed.taken(keys.full(key), "\"" + wordOf.apply(standard) + "\"");
        }
        return value == null ? standard : value;
    }

    private boolean flag(Keys keys, String key, boolean standard) {
        Boolean value = keys.bool(key);
        if (value == null) {
            assumed.taken(keys.full(key), String.valueOf(standard));
        }
        return value == null ? standard : value;
    }

    private double taken(
            Keys keys, String key, Dimension dimension, Keys.Sign sign, double standard, String standardText) {
        Keys.Num num = keys.quantity(key, dimension, sign, true);
        if (!num.given()) {
            assumed.taken(keys.full(key), standardText);
        }
        return num.or(standard);
    }

    /** Reads the spread; {@code toolNames} are those that may be named, save in {@code shopName}, shared by jobs. */
    Spread spread(Keys root, Set<String> toolNames, String shopName) {
        Keys keys = root.table("spread");
        if (keys == null) {
            keys = new Keys(new Node.Tab(root.span()), "spread", problems);
        }
        IntervalMm z = interval(keys);
        Map<String, IntervalMm> byTool = new TreeMap<>();
        Keys tools = keys.table("tool");
        if (tools != null) {
            for (String name : tools.names()) {
                Keys tool = tools.table(name);
                SourceSpan span = tools.keyAt(name);
                if (!toolNames.contains(name) && !span.file().equals(shopName)) {
                    problems.add(
                            span,
                            "unknown-tool",
                            "The spread names the tool \"" + Keys.shortened(name) + "\", which the job does not have.",
                            "Tools of the job: " + String.join(", ", toolNames) + ".",
                            foilproof.source.Spelling.nearest(name, toolNames));
                }
                if (tool != null) {
                    IntervalMm own = interval(tool);
                    if (own != null) {
                        byTool.put(name, own);
                    }
                    tool.close();
                }
            }
        }
        Keys.Num touch = keys.length("z_touch", Keys.Sign.NOT_NEGATIVE, false);
        Keys.Num bow = keys.length("bow", Keys.Sign.NOT_NEGATIVE, false);
        if (z == null && touch.state() == Keys.State.ABSENT) {
            assumed.taken("spread.z_touch", "0.03 mm");
        }
        if (z == null && bow.state() == Keys.State.ABSENT) {
            assumed.taken("spread.bow", "0.05 mm on 100 mm");
        }
        double thicknessMm =
                keys.length("thickness", Keys.Sign.NOT_NEGATIVE, false).or(0.05);
        if (!keys.has("thickness")) {
            assumed.taken("spread.thickness", "0.05 mm");
        }
        keys.close();
        return new Spread(touch.or(0.03), bow.or(0.05), z, byTool, thicknessMm);
    }

    private static @Nullable IntervalMm interval(Keys keys) {
        double[] z = keys.quantities("z", 2, Dimension.LENGTH, Keys.Sign.ANY, false);
        if (z == null) {
            return null;
        }
        if (z[0] > z[1]) {
            keys.problem(
                    "z",
                    "out-of-range",
                    keys.full("z") + " runs from high to low.",
                    "Expected the lower end first: [\"-0.060 mm\", \"0.030 mm\"].",
                    null);
            return new IntervalMm(z[1], z[0]);
        }
        return new IntervalMm(z[0], z[1]);
    }

    Limits limits(Keys root) {
        Limits limits = Limits.DEFAULT;
        Keys keys = root.table("limits");
        if (keys == null) {
            return limits;
        }
        for (LimitKey limit : LimitKey.values()) {
            Keys.Num num = keys.quantity(limit.key(), limit.dimension(), Keys.Sign.NOT_NEGATIVE, false);
            if (num.given()) {
                limits = limits.with(limit, num.value());
            }
        }
        for (String key : keys.names()) {
            if (LimitKey.of(key) == null) {
                SourceSpan span = keys.keyAt(key);
                problems.add(
                        span,
                        "unknown-key",
                        "Unknown limit \"" + Keys.shortened(key) + "\".",
                        "Every limit is listed in the README.",
                        foilproof.source.Spelling.nearest(key, LimitKey.keys()));
            }
        }
        return limits;
    }

    List<KeepOut> keepOuts(Keys root) {
        List<KeepOut> found = new ArrayList<>();
        Set<String> names = new java.util.HashSet<>();
        for (Keys keys : root.tables("keep_out")) {
            String name = keys.string("name", "left clamp");
            if (!keys.has("name")) {
                keys.missing("name", "\"left clamp\"");
            } else if (name != null && !names.add(name)) {
                keys.problem(
                        "name",
                        "duplicate",
                        "Two keep-outs are called \"" + Keys.shortened(name) + "\".",
                        "Expected a name of its own for each.",
                        null);
            }
            double[] box = keys.quantities("box", 4, Dimension.LENGTH, Keys.Sign.ANY, false);
            if (!keys.has("box")) {
                keys.missing("box", "[\"-20 mm\", \"10 mm\", \"3 mm\", \"30 mm\"]: x0, y0, x1, y1");
            } else if (box != null && (box[0] >= box[2] || box[1] >= box[3])) {
                keys.problem(
                        "box",
                        "out-of-range",
                        keys.full("box") + " is empty.",
                        "Expected x0, y0, x1, y1 with x0 below x1 and y0 below y1.",
                        null);
            }
            Keys.Num top = keys.length("top", Keys.Sign.ANY, false);
            if (top.state() == Keys.State.ABSENT) {
                keys.missing("top", "\"8 mm\"");
            }
            keys.close();
            if (box != null && name != null) {
                found.add(new KeepOut(name, box[0], box[1], box[2], box[3], top.or(0)));
            }
        }
        return found;
    }
}

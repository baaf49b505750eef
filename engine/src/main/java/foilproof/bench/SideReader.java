package foilproof.bench;

import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import foilproof.source.Spelling;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads the sides and their programs. */
final class SideReader {
    private static final double SAME_MM = 1e-9;

    private final Problems problems;
    private final Assumed assumed;
    private final Inputs inputs;
    private final BenchReader bench;
    private final Blank blank;
    private final List<String> toolNames;

    SideReader(
            Problems problems, Assumed assumed, Inputs inputs, BenchReader bench, Blank blank, List<String> toolNames) {
        this.problems = problems;
        this.assumed = assumed;
        this.inputs = inputs;
        this.bench = bench;
        this.blank = blank;
        this.toolNames = toolNames;
    }

    List<Side> sides(Keys root) {
        List<Side> sides = new ArrayList<>();
        List<Keys> tables = root.tables("side");
        if (tables.isEmpty() && !(root.node("side") instanceof Node.Tab)) {
            root.missing("side", "at least one table: [[side]] with its [[side.program]]");
        }
        for (Keys keys : tables) {
            sides.add(side(keys, sides));
        }
        return sides;
    }

    private Side side(Keys keys, List<Side> before) {
        int number = before.size() + 1;
        String who = "side " + number;
        Turn turned = turned(keys, number);
        Face face = face(keys, turned, before, who);
        XyMm workZero = placeOr(keys, "work_zero");
        ZZero zZero = keys.word("z_zero", ZZero.values(), ZZero::word);
        if (!keys.has("z_zero")) {
            assumed.takenFor(who, "z_zero foil, as nothing was stated");
        }
        if (workZero == null && !keys.has("work_zero")) {
            assumed.takenFor(who, "work zero at the blank's lower-left corner, as none was stated");
        }
        ZZero zero = zZero == null ? ZZero.FOIL : zZero;
        XyMm touch = onBlank(keys, "touch_off", zero == ZZero.FOIL);
        XyMm clip = onBlank(keys, "probe_clip", true);
        Boolean deburred = keys.bool("deburred");
        List<XyMm> pins = pins(keys);
        Surface surface = bench.surface(keys, false);
        Hold hold = keys.word("hold", Hold.values(), Hold::word);
        Keys.Num tape = keys.length("tape", Keys.Sign.NOT_NEGATIVE, true);
        if (surface == null
                && number > 1
                && turned != Turn.NO
                && !blank.surface().flat()) {
            assumed.takenFor(who, "the surface of [blank] as touched, although the blank was turned over");
        }
        XyMm zeroOfSide = workZero == null ? XyMm.ZERO : workZero;
        List<ProgramEntry> programs = new ArrayList<>();
        List<Keys> tables = keys.tables("program");
        if (tables.isEmpty() && !(keys.node("program") instanceof Node.Tab)) {
            keys.missing("program", "at least one table: [[side.program]] with file");
        }
        for (Keys program : tables) {
            boolean first = before.isEmpty() && programs.isEmpty();
            ProgramEntry entry = program(program, zeroOfSide, zero, touch, first);
            if (entry != null) {
                programs.add(entry);
            }
        }
        keys.close();
        return new Side(
                number,
                face,
                turned,
                zeroOfSide,
                zero,
                touch,
                clip,
                Boolean.TRUE.equals(deburred),
                pins,
                surface == null ? blank.surface() : surface,
                hold == null ? blank.hold() : hold,
                tape.or(blank.tapeMm()),
                programs);
    }

    private Turn turned(Keys keys, int number) {
        Turn turned = keys.word("turned", Turn.values(), Turn::word);
        if (turned != null && turned != Turn.NO && number == 1) {
            keys.problem(
                    "turned",
                    "out-of-range",
                    "The first side cannot have been turned over.",
                    "Expected turned = \"no\".",
                    "no");
        }
        if (!keys.has("turned") && number > 1) {
            assumed.takenFor("side " + number, "not turned over, as nothing was stated");
        }
        return turned == null ? Turn.NO : turned;
    }

    private Face face(Keys keys, Turn turned, List<Side> before, String who) {
        Face face = keys.word("face", Face.values(), Face::word);
        Face up = Face.BOTTOM;
        if (!before.isEmpty()) {
            Face last = before.get(before.size() - 1).face();
            up = turned == Turn.NO ? last : last.other();
        }
        if (!keys.has("face")) {
            assumed.takenFor(who, "face \"" + up.word() + "\", as none was stated");
        }
        if (face != null && !before.isEmpty() && face != up && !keys.has("turned")) {
            keys.problem(
                    "face",
                    "face-disagrees",
                    "The face that faces up changes, but how the blank was turned over is not said.",
                    "Expected turned = \"about X\" or turned = \"about Y\".",
                    null);
        } else if (face != null && !before.isEmpty() && face != up) {
            keys.problem(
                    "face",
                    "face-disagrees",
                    "The face that faces up does not agree with turned = \"" + turned.word() + "\" after "
                            + before.get(before.size() - 1).face().word() + ".",
                    "Expected face = \"" + up.word() + "\".",
                    up.word());
        }
        return face == null ? up : face;
    }

    private @Nullable XyMm placeOr(Keys keys, String key) {
        return keys.place(key, Keys.Sign.ANY);
    }

    /** A place on the blank, or null. */
    private @Nullable XyMm onBlank(Keys keys, String key, boolean mustBeOn) {
        XyMm at = keys.place(key, Keys.Sign.ANY);
        boolean off = at != null
                && (at.xMm() < -SAME_MM
                        || at.yMm() < -SAME_MM
                        || at.xMm() > blank.widthMm() + SAME_MM
                        || at.yMm() > blank.heightMm() + SAME_MM);
        if (off && mustBeOn && blank.sizeKnown()) {
            keys.problem(
                    key,
                    "out-of-range",
                    keys.full(key) + " lies off the blank.",
                    "Expected a place from the blank's lower-left corner, within its width and height.",
                    null);
        }
        return at;
    }

    private List<XyMm> pins(Keys keys) {
        List<XyMm> pins = new ArrayList<>();
        Node node = keys.node("pins");
        if (node == null) {
            return pins;
        }
        String expected = "Expected places such as [[\"5 mm\", \"20 mm\"], [\"55 mm\", \"20 mm\"]].";
        if (!(node instanceof Node.Arr arr)) {
            keys.problem("pins", "wrong-type", keys.full("pins") + " is " + Node.kind(node) + ".", expected, null);
            return pins;
        }
        for (int i = 0; i < arr.items().size(); i++) {
            Node item = arr.items().get(i);
            String what = keys.full("pins") + "[" + i + "]";
            if (!(item instanceof Node.Arr pair) || pair.items().size() != 2) {
                problems.add(item.span(), "wrong-type", what + " is not two lengths.", expected, null);
                continue;
            }
            double[] xy = keys.quantitiesIn(pair, what, foilproof.geom.Dimension.LENGTH, Keys.Sign.ANY);
            if (xy != null) {
                pins.add(new XyMm(xy[0], xy[1]));
            }
        }
        return pins;
    }

    private @Nullable ProgramEntry program(Keys keys, XyMm zero, ZZero zZero, @Nullable XyMm touch, boolean first) {
        SourceFile source =
                inputs.file(keys, "file", "isolation.ngc", inputs.limits().fileBytes());
        if (!keys.has("file")) {
            keys.missing("file", "\"isolation.ngc\"");
        }
        String tool = keys.string("tool", "engraver");
        if (tool != null && !toolNames.contains(tool)) {
            SourceSpan span = keys.at("tool");
            problems.add(
                    span,
                    "unknown-tool",
                    "There is no tool \"" + Keys.shortened(tool) + "\".",
                    toolNames.isEmpty()
                            ? "Expected a [[tool]] of this name."
                            : "Tools of the job: " + String.join(", ", toolNames) + ".",
                    Spelling.nearest(tool, toolNames));
        }
        Work work = keys.word("work", Work.values(), Work::word);
        XyMm ownZero = placeOr(keys, "work_zero");
        ZZero ownZ = keys.word("z_zero", ZZero.values(), ZZero::word);
        ZZero z = ownZ == null ? zZero : ownZ;
        XyMm ownTouch = onBlank(keys, "touch_off", z == ZZero.FOIL);
        Boolean retouch = keys.bool("retouch");
        if (Boolean.FALSE.equals(retouch) && first) {
            keys.problem(
                    "retouch",
                    "out-of-range",
                    "The first program cannot go on with a cutter left by another.",
                    "Leave retouch out here.",
                    null);
        }
        keys.close();
        return source == null
                ? null
                : new ProgramEntry(
                        source,
                        tool,
                        work,
                        ownZero == null ? zero : ownZero,
                        z,
                        ownTouch == null ? touch : ownTouch,
                        !Boolean.FALSE.equals(retouch));
    }
}

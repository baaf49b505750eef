package foilproof.bench;

import foilproof.geom.Dimension;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Reads what was intended: design files, nets, joins. */
final class DesignReader {
    private final Problems problems;
    private final Assumed assumed;
    private final Inputs inputs;

    DesignReader(Problems problems, Assumed assumed, Inputs inputs) {
        this.problems = problems;
        this.assumed = assumed;
        this.inputs = inputs;
    }

    @Nullable
    DesignFiles design(Keys root) {
        Keys keys = root.table("design");
        if (keys == null) {
            return null;
        }
        SourceFile top = file(keys, "top_copper", "top.gbr");
        SourceFile bottom = file(keys, "bottom_copper", "bottom.gbr");
        SourceFile drill = file(keys, "drill", "holes.drl");
        SourceFile netlist = file(keys, "netlist", "board.ipc");
        SourceFile outline = file(keys, "outline", "outline.gbr");
        XyMm placed = keys.place("placed_at", Keys.Sign.ANY);
        if (placed == null) {
            assumed.taken("design.placed_at", "the blank's lower-left corner");
        }
        int rotatedDeg = rotated(keys);
        XyMm size = keys.place("finished_size", Keys.Sign.POSITIVE);
        keys.close();
        return new DesignFiles(
                top, bottom, drill, netlist, outline, placed == null ? XyMm.ZERO : placed, rotatedDeg, size);
    }

    private @Nullable SourceFile file(Keys keys, String key, String example) {
        return inputs.file(keys, key, example, inputs.limits().fileBytes());
    }

    private int rotated(Keys keys) {
        Keys.Num angle = keys.quantity("rotated", Dimension.ANGLE, Keys.Sign.ANY, false);
        double deg = angle.or(0);
        if (deg != 0 && deg != 90 && deg != 180 && deg != 270) {
            keys.problem(
                    "rotated",
                    "out-of-range",
                    keys.full("rotated") + " is " + deg + " deg.",
                    "Expected \"0 deg\", \"90 deg\", \"180 deg\" or \"270 deg\", counter-clockwise.",
                    null);
            return 0;
        }
        if (angle.state() == Keys.State.ABSENT) {
            assumed.taken("design.rotated", "0 deg");
        }
        return (int) deg;
    }

    List<Net> nets(Keys root) {
        List<Net> nets = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (Keys keys : root.tables("net")) {
            String name = keys.string("name", "VIN");
            if (!keys.has("name")) {
                keys.missing("name", "\"VIN\"");
            } else if (name != null && !names.add(name)) {
                keys.problem(
                        "name",
                        "duplicate",
                        "Two nets are called \"" + Keys.shortened(name) + "\".",
                        "Expected each net once.",
                        null);
            }
            Keys.Num current = keys.quantity("current", Dimension.CURRENT, Keys.Sign.NOT_NEGATIVE, true);
            Keys.Num voltage = keys.quantity("voltage", Dimension.VOLTAGE, Keys.Sign.ANY, true);
            Boolean flooded = keys.bool("flooded");
            Boolean highImpedance = keys.bool("high_impedance");
            keys.close();
            if (name != null) {
                nets.add(new Net(
                        name,
                        current.optional(),
                        voltage.optional(),
                        Boolean.TRUE.equals(flooded),
                        Boolean.TRUE.equals(highImpedance)));
            }
        }
        return nets;
    }

    List<Join> joins(Keys root) {
        List<Join> joins = new ArrayList<>();
        for (Keys keys : root.tables("join")) {
            boolean through = keys.has("at");
            boolean fromOnly = keys.has("from");
            boolean fromTo = keys.has("to") || fromOnly;
            Join.End from = null;
            Join.End to = null;
            if (through && fromTo) {
                keys.problem(
                        "at",
                        "misplaced-key",
                        "A join has one place, or two, not both.",
                        "Expected at, or from and to.",
                        null);
            } else if (fromTo) {
                from = end(keys, "from", "[\"12 mm\", \"8 mm\", \"top\"]");
                to = end(keys, "to", "[\"20 mm\", \"8 mm\", \"bottom\"]");
            } else if (through) {
                double[] at = keys.quantities("at", 2, Dimension.LENGTH, Keys.Sign.ANY, false);
                if (at != null) {
                    from = new Join.End(new XyMm(at[0], at[1]), Face.TOP);
                    to = new Join.End(new XyMm(at[0], at[1]), Face.BOTTOM);
                }
            } else {
                keys.missing("at", "[\"12 mm\", \"8 mm\"]");
            }
            Keys.Num wire = keys.length("wire", Keys.Sign.POSITIVE, true);
            keys.close();
            if (from != null && to != null) {
                if (from.equals(to)) {
                    keys.problem("to", "out-of-range", "The wire ends where it begins.", null, null);
                }
                joins.add(new Join(from, to, wire.optional()));
            }
        }
        return joins;
    }

    private Join.@Nullable End end(Keys keys, String key, String example) {
        if (!keys.has(key)) {
            keys.missing(key, example);
            return null;
        }
        Node.Arr arr = keys.array(key, 3, example, false);
        if (arr == null) {
            return null;
        }
        SourceSpan span = arr.span();
        Node.Arr place = new Node.Arr(arr.items().subList(0, 2), span);
        double[] at = keys.quantitiesIn(place, keys.full(key), Dimension.LENGTH, Keys.Sign.ANY);
        Node faceNode = arr.items().get(2);
        String word = faceNode instanceof Node.Scalar scalar ? scalar.text() : null;
        for (Face face : Face.values()) {
            if (face.word().equals(word)) {
                return at == null ? null : new Join.End(new XyMm(at[0], at[1]), face);
            }
        }
        problems.add(
                faceNode.span(),
                "unknown-word",
                keys.full(key) + "[2] is no face.",
                "Expected \"top\" or \"bottom\".",
                word == null ? null : foilproof.source.Spelling.nearest(word, List.of("top", "bottom")));
        return null;
    }
}

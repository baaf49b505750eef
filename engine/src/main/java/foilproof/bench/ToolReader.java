package foilproof.bench;

import foilproof.geom.Dimension;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Reads the tools. */
final class ToolReader {
    /** The usual shank of small cutters, 1/8 in; common practice, no source. */
    private static final double USUAL_SHANK_MM = 3.175;

    private static final double USUAL_POINT_DEG = 118;

    /** Wider than any cutter that such a machine holds; a larger number is a slip of the decimal point. */
    private static final double WIDEST_MM = 50;

    private final Assumed assumed;

    ToolReader(Assumed assumed) {
        this.assumed = assumed;
    }

    List<Tool> tools(Keys root) {
        List<Tool> tools = new ArrayList<>();
        Set<String> names = new HashSet<>();
        Map<Integer, String> numbers = new HashMap<>();
        for (Keys keys : root.tables("tool")) {
            String name = keys.string("name", "engraver");
            OptionalInt number = keys.whole("number", 1, 99999);
            ToolShape shape = keys.word("shape", ToolShape.values(), ToolShape::word);
            if (!keys.has("name")) {
                keys.missing("name", "\"engraver\"");
            } else if (name != null && !names.add(name)) {
                keys.problem(
                        "name",
                        "duplicate",
                        "Two tools are called \"" + Keys.shortened(name) + "\".",
                        "Expected a name of its own for each.",
                        null);
            }
            if (number.isPresent() && name != null) {
                String other = numbers.putIfAbsent(number.getAsInt(), name);
                if (other != null) {
                    keys.problem(
                            "number",
                            "duplicate",
                            "The tools \"" + other + "\" and \"" + name + "\" both have number " + number.getAsInt()
                                    + ".",
                            "Expected a number of its own for each.",
                            null);
                }
            }
            if (!keys.has("shape")) {
                keys.missing("shape", "\"flat\"");
            }
            Tool tool = tool(keys, name == null ? "?" : name, number, shape);
            keys.close();
            if (tool != null) {
                tools.add(tool);
            }
        }
        return tools;
    }

    private @Nullable Tool tool(Keys keys, String name, OptionalInt number, @Nullable ToolShape shape) {
        Keys.Num diameter = keys.length("diameter", Keys.Sign.POSITIVE, false);
        Keys.Num angle = keys.quantity("included_angle", Dimension.ANGLE, Keys.Sign.POSITIVE, shape == ToolShape.DRILL);
        Keys.Num tipWidth = keys.length("tip_width", Keys.Sign.NOT_NEGATIVE, true);
        Keys.Num tipRadius = keys.length("tip_radius", Keys.Sign.POSITIVE, true);
        Keys.Num shank = keys.length("shank", Keys.Sign.POSITIVE, true);
        OptionalInt flutes = keys.whole("flutes", 1, 20);
        OptionalDouble flute =
                keys.length("flute_length", Keys.Sign.POSITIVE, true).optional();
        OptionalDouble stickOut =
                keys.length("stick_out", Keys.Sign.POSITIVE, true).optional();
        Keys.Num runout = keys.length("runout", Keys.Sign.NOT_NEGATIVE, true);
        Boolean centre = keys.bool("centre_cutting");
        OptionalDouble length = keys.length("length", Keys.Sign.ANY, true).optional();
        Duty duty = duty(keys);
        if (shape == null) {
            return null;
        }
        double shankMm = shank.or(USUAL_SHANK_MM);
        double diameterMm = shape == ToolShape.V ? shankMm : diameter.or(1);
        double angleDeg = angle.or(shape == ToolShape.DRILL ? USUAL_POINT_DEG : 30);
        checkDiameter(keys, shape, diameter);
        checkAngle(keys, shape, angle);
        checkTip(keys, shape, tipWidth, tipRadius, shankMm, angleDeg);
        if (runout.state() == Keys.State.ABSENT || runout.state() == Keys.State.UNKNOWN) {
            assumed.takenFor(name, "runout 0 mm, as none was stated, for the tools");
        }
        if (shape == ToolShape.V && !shank.given()) {
            assumed.takenFor(name, "largest diameter 3.175 mm (1/8 in), as no shank was stated, for the V-shaped bits");
        }
        if (shape == ToolShape.DRILL && !angle.given()) {
            assumed.takenFor(name, "point 118 deg, as no included_angle was stated, for the drills");
        }
        if (centre == null && shape == ToolShape.FLAT) {
            assumed.takenFor(name, "centre cutting, as nothing was stated, for the flat end mills");
        }
        if (!keys.has("duty")) {
            assumed.takenFor(name, "duty any, as none was stated, for the tools");
        }
        boolean angled = shape == ToolShape.V || shape == ToolShape.DRILL;
        return new Tool(
                name,
                number,
                shape,
                diameterMm,
                angled ? StrictMath.toRadians(angleDeg) : 0,
                shape == ToolShape.V ? tipWidth.optional() : OptionalDouble.empty(),
                shape == ToolShape.V && !tipWidth.given() ? tipRadius.optional() : OptionalDouble.empty(),
                shape == ToolShape.V || shank.given() ? OptionalDouble.of(shankMm) : OptionalDouble.empty(),
                flutes,
                flute,
                stickOut,
                runout.or(0),
                centre == null || centre,
                length,
                duty);
    }

    private static void checkDiameter(Keys keys, ToolShape shape, Keys.Num diameter) {
        if (shape == ToolShape.V) {
            if (keys.has("diameter")) {
                keys.problem(
                        "diameter",
                        "misplaced-key",
                        "A V-shaped bit has no diameter of its own.",
                        "Expected shank, which is also its largest diameter, and tip_width or tip_radius.",
                        "shank");
            }
        } else if (diameter.state() == Keys.State.ABSENT) {
            keys.missing("diameter", "\"0.8 mm\"");
        } else if (diameter.given() && diameter.value() > WIDEST_MM) {
            keys.problem(
                    "diameter",
                    "out-of-range",
                    keys.full("diameter") + " is " + diameter.value() + " mm.",
                    "Expected at most 50 mm.",
                    null);
        }
    }

    private static void checkAngle(Keys keys, ToolShape shape, Keys.Num angle) {
        if (shape == ToolShape.FLAT || shape == ToolShape.BALL) {
            if (keys.has("included_angle")) {
                keys.problem(
                        "included_angle",
                        "misplaced-key",
                        "A " + shape.word() + " end mill has no included angle.",
                        "The key is for V-shaped bits and drills.",
                        null);
            }
        } else if (shape == ToolShape.V && angle.state() == Keys.State.ABSENT) {
            keys.missing("included_angle", "\"30 deg\"");
        } else if (angle.given() && angle.value() >= 180) {
            keys.problem(
                    "included_angle",
                    "out-of-range",
                    keys.full("included_angle") + " is " + angle.value() + " deg.",
                    "Expected the full angle between the flanks, below 180 deg.",
                    null);
        }
    }

    private static void checkTip(
            Keys keys, ToolShape shape, Keys.Num width, Keys.Num radius, double shankMm, double angleDeg) {
        if (shape != ToolShape.V) {
            for (String key : List.of("tip_width", "tip_radius")) {
                if (keys.has(key)) {
                    keys.problem(
                            key,
                            "misplaced-key",
                            "Only a V-shaped bit has a " + key + ".",
                            "Expected diameter for this shape.",
                            "diameter");
                }
            }
            return;
        }
        if (width.given() && radius.given()) {
            keys.problem(
                    "tip_radius",
                    "misplaced-key",
                    "The tip is said to be flat and round at once.",
                    "Expected tip_width or tip_radius, not both.",
                    null);
        }
        double half = StrictMath.toRadians(Math.min(angleDeg, 179) / 2);
        if (width.given() && width.value() >= shankMm) {
            keys.problem(
                    "tip_width",
                    "out-of-range",
                    keys.full("tip_width") + " is no less than the shank.",
                    "Expected the width of the flat at the tip, such as \"0.10 mm\".",
                    null);
        }
        if (radius.given() && radius.value() * StrictMath.cos(half) >= shankMm / 2) {
            keys.problem(
                    "tip_radius",
                    "out-of-range",
                    keys.full("tip_radius") + " is too large for the shank.",
                    "Expected the radius of the round tip, such as \"0.127 mm\".",
                    null);
        }
    }

    private static Duty duty(Keys keys) {
        Node node = keys.node("duty");
        String expected = "Expected \"copper only\", \"any\", or a list of isolation, clearing, boring, outline, text.";
        if (node == null) {
            return Duty.ANY;
        }
        if (node instanceof Node.Arr arr) {
            if (arr.items().isEmpty()) {
                keys.problem("duty", "empty", keys.full("duty") + " allows nothing.", expected, null);
            }
            return Duty.of(keys.words("duty", Work.values(), Work::word));
        }
        String text = node instanceof Node.Scalar scalar ? scalar.text() : null;
        if ("any".equals(text)) {
            return Duty.ANY;
        }
        if ("copper only".equals(text)) {
            return Duty.COPPER_ONLY;
        }
        if (text == null) {
            keys.problem("duty", "wrong-type", keys.full("duty") + " is " + Node.kind(node) + ".", expected, null);
        } else {
            String near = foilproof.source.Spelling.nearest(
                    text, List.of("copper only", "any", "isolation", "clearing", "boring", "outline", "text"));
            keys.problem(
                    "duty",
                    "unknown-word",
                    keys.full("duty") + " is \"" + Keys.shortened(text) + "\".",
                    expected,
                    near);
        }
        return Duty.ANY;
    }
}

package foilproof.app.practice;

import foilproof.app.practice.Exercise.Predicted;
import foilproof.app.practice.Exercise.Weight;
import foilproof.geom.Quantity;
import foilproof.geom.QuantityFormatException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlTable;

/**
 * What a learner says before the dry run.
 *
 * @param clean whether nothing is said to be wrong
 * @param cleanConfidence how sure of that, percent, 50 to 99
 * @param marks what is said to be wrong
 * @param numbers predicted numbers by key, in the unit of the question; absent where not predicted
 */
public record Answer(boolean clean, int cleanConfidence, List<Mark> marks, Map<String, Double> numbers) {
    /** Name of the answer's file in the exercise's folder. */
    public static final String FILE = "answer.toml";

    /**
     * One mark.
     *
     * @param xMm place in the blank's frame
     * @param yMm place in the blank's frame
     * @param cause one of {@link Exercises#CAUSES}
     * @param confidencePercent 50 to 99
     * @param severity how bad it is said to be
     */
    public record Mark(double xMm, double yMm, String cause, int confidencePercent, Weight severity) {}

    /** An answer that cannot be taken; the message says why, one line for each thing. */
    public static final class NotFilledInException extends Exception {
        private static final long serialVersionUID = 1L;

        NotFilledInException(String message) {
            super(message);
        }
    }

    /** The empty form. */
    static String form(Exercise exercise) {
        StringBuilder out = new StringBuilder("# Your prediction, before the dry run. Places are in the blank's frame:"
                + " lower-left corner (0, 0), X right, Y up.\n# Say clean = true where nothing is wrong; else one [[mark]]"
                + " for each fault that you see.\nclean = \"?\"                  # true or false\n"
                + "# confidence = 80            # how sure of clean = true, percent, 50 to 99\n\n# [[mark]]\n"
                + "# at = [\"12 mm\", \"8 mm\"]\n# cause = \"step-over\"        # one of: "
                + String.join(", ", Exercises.CAUSES)
                + "\n# confidence = 70            # percent, 50 to 99\n# severity = \"fix\"           # stop, fix or watch\n"
                + "\n[numbers]                    # leave out what you cannot tell\n");
        for (Predicted number : exercise.numbers()) {
            out.append("# ").append(number.question()).append(":\n# ").append(number.key());
            out.append(
                    number.unit().equals("mm")
                            ? " = \"... mm\"\n"
                            : number.unit().equals("line") ? " = 1\n" : " = 1.0\n");
        }
        return out.toString();
    }

    /** An answer as the text of its file; lines are whole numbers. */
    public String toml(Exercise exercise) {
        StringBuilder out = new StringBuilder("clean = ").append(clean).append('\n');
        if (clean) {
            out.append("confidence = ").append(cleanConfidence).append('\n');
        }
        for (Mark m : marks) {
            out.append(String.format(
                    Locale.ROOT,
                    "%n[[mark]]%nat = [\"%.3f mm\", \"%.3f mm\"]%ncause = \"%s\"%nconfidence = %d%nseverity = \"%s\"%n",
                    m.xMm(),
                    m.yMm(),
                    m.cause(),
                    m.confidencePercent(),
                    m.severity().name().toLowerCase(Locale.ROOT)));
        }
        out.append("\n[numbers]\n");
        for (Predicted asked : exercise.numbers()) {
            Double v = numbers.get(asked.key());
            if (v != null) {
                out.append(asked.key()).append(" = ");
                out.append(asked.unit().equals("line") ? Long.toString(Math.round(v)) : v.toString())
                        .append('\n');
            }
        }
        return out.toString().replace("\r\n", "\n");
    }

    /**
     * Reads an answer.
     *
     * @throws NotFilledInException where something is missing or not understood
     */
    static Answer read(String text, Exercise exercise) throws NotFilledInException {
        TomlParseResult toml = Toml.parse(text);
        if (toml.hasErrors()) {
            throw new NotFilledInException("answer.toml " + toml.errors().get(0).position() + ": "
                    + toml.errors().get(0).getMessage());
        }
        if (!(toml.get("clean") instanceof Boolean clean)) {
            throw new NotFilledInException("clean: say true or false.");
        }
        List<Mark> marks = new ArrayList<>();
        if (toml.get("mark") instanceof TomlArray array) {
            for (int i = 0; i < array.size(); i++) {
                if (!(array.get(i) instanceof TomlTable table)) {
                    throw new NotFilledInException("mark: write each as [[mark]].");
                }
                marks.add(mark(table, "mark " + (i + 1)));
            }
        } else if (toml.get("mark") != null) {
            throw new NotFilledInException("mark: write each as [[mark]].");
        }
        if (clean && !marks.isEmpty()) {
            throw new NotFilledInException("clean = true and a mark contradict each other.");
        }
        if (!clean && marks.isEmpty()) {
            throw new NotFilledInException("clean = false: mark at least one fault.");
        }
        int sure = clean ? confidence(toml, "clean") : 50;
        return new Answer(clean, sure, List.copyOf(marks), numbers(toml, exercise));
    }

    private static Mark mark(TomlTable table, String name) throws NotFilledInException {
        if (!(table.get("at") instanceof TomlArray at) || at.size() != 2) {
            throw new NotFilledInException(name + ": at needs two lengths, e.g. [\"12 mm\", \"8 mm\"].");
        }
        String cause = table.get("cause") instanceof String word ? word : "";
        if (!Exercises.CAUSES.contains(cause)) {
            throw new NotFilledInException(
                    name + ": cause \"" + cause + "\" is not one of " + String.join(", ", Exercises.CAUSES) + ".");
        }
        return new Mark(
                length(at.get(0), name),
                length(at.get(1), name),
                cause,
                confidence(table, name),
                severity(table, name));
    }

    private static Weight severity(TomlTable table, String name) throws NotFilledInException {
        String word = table.get("severity") instanceof String said ? said : "";
        for (Weight weight : Weight.values()) {
            if (weight.name().toLowerCase(Locale.ROOT).equals(word)) {
                return weight;
            }
        }
        throw new NotFilledInException(name + ": severity is stop, fix or watch.");
    }

    private static int confidence(TomlTable table, String name) throws NotFilledInException {
        if (table.get("confidence") instanceof Long percent && percent >= 50 && percent <= 99) {
            return percent.intValue();
        }
        throw new NotFilledInException(name + ": confidence is a whole number of percent from 50 to 99.");
    }

    private static double length(@Nullable Object value, String name) throws NotFilledInException {
        try {
            return Quantity.parseLengthMm(value instanceof String text ? text : "");
        } catch (QuantityFormatException e) {
            throw new NotFilledInException(name + ": expected a length with its unit, e.g. \"0.10 mm\".");
        }
    }

    private static Map<String, Double> numbers(TomlTable toml, Exercise exercise) throws NotFilledInException {
        Map<String, Double> numbers = new LinkedHashMap<>();
        if (!(toml.get("numbers") instanceof TomlTable table)) {
            return numbers;
        }
        for (Predicted asked : exercise.numbers()) {
            Object value = table.get(asked.key());
            if (value == null) {
                continue;
            }
            double number = asked.unit().equals("mm") && value instanceof String
                    ? length(value, asked.key())
                    : value instanceof Long line
                            ? line.doubleValue()
                            : value instanceof Double real && !asked.unit().equals("line") ? real : Double.NaN;
            if (!(number > 0)) {
                throw new NotFilledInException(asked.key() + ": expected a positive number.");
            }
            numbers.put(asked.key(), number);
        }
        for (String key : table.keySet()) {
            if (exercise.numbers().stream().noneMatch(asked -> asked.key().equals(key))) {
                throw new NotFilledInException(key + ": no such number is asked.");
            }
        }
        return numbers;
    }
}

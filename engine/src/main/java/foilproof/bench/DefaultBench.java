package foilproof.bench;

import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;

/** The bench on which a bare program runs: stated guesses, written as a job file so that settings reach every value. */
final class DefaultBench {
    private static final double MARGIN_MM = 5;

    private final String toml;
    private final List<String> assumed;

    private DefaultBench(String toml, List<String> assumed) {
        this.toml = toml;
        this.assumed = assumed;
    }

    String toml() {
        return toml;
    }

    List<String> assumed() {
        return assumed;
    }

    static DefaultBench of(SourceFile program, InputLimits limits) {
        ProgramSketch sketch = ProgramSketch.of(program, limits);
        List<String> assumed = new ArrayList<>();
        assumed.add("no job file: the program runs on a default bench");
        double widthMm = 100;
        double heightMm = 80;
        double zeroXMm = 0;
        double zeroYMm = 0;
        if (sketch.cuts()) {
            widthMm = Math.ceil(sketch.x1Mm - sketch.x0Mm + 2 * MARGIN_MM);
            heightMm = Math.ceil(sketch.y1Mm - sketch.y0Mm + 2 * MARGIN_MM);
            zeroXMm = MARGIN_MM - sketch.x0Mm;
            zeroYMm = MARGIN_MM - sketch.y0Mm;
        }
        assumed.add("blank " + ProgramSketch.number(widthMm) + " x " + ProgramSketch.number(heightMm)
                + " mm, 5 mm round what the program cuts, its lower-left corner at "
                + ProgramSketch.number(-zeroXMm) + ", " + ProgramSketch.number(-zeroYMm) + " mm of the program");
        StringBuilder out = new StringBuilder();
        out.append("job = ").append(quoted(program.name())).append('\n');
        out.append("[blank]\nwidth = \"").append(ProgramSketch.number(widthMm)).append(" mm\"\nheight = \"");
        out.append(ProgramSketch.number(heightMm)).append(" mm\"\n");
        String lone = tools(sketch, out, assumed);
        out.append("[[side]]\nface = \"bottom\"\nwork_zero = [\"").append(ProgramSketch.number(zeroXMm));
        out.append(" mm\", \"").append(ProgramSketch.number(zeroYMm)).append(" mm\"]\n");
        out.append("[[side.program]]\nfile = ").append(quoted(program.name())).append('\n');
        out.append(lone);
        assumed.add("bottom copper faces up");
        return new DefaultBench(out.toString(), assumed);
    }

    /** Writes the tools; returns the line that names the tool where the program calls none. */
    private static String tools(ProgramSketch sketch, StringBuilder out, List<String> assumed) {
        String lone = "";
        for (ProgramSketch.Use use : sketch.uses.values()) {
            ProgramSketch.ToolGuess guess = ProgramSketch.guess(use);
            String name = use.number < 1 ? "cutter" : "T" + use.number;
            if (use.number == 0) {
                continue;
            }
            out.append("[[tool]]\nname = \"").append(name).append("\"\n");
            if (use.number > 0) {
                out.append("number = ").append(use.number).append('\n');
            } else {
                lone = "tool = \"" + name + "\"\n";
            }
            out.append("shape = \"").append(guess.shape().word()).append("\"\n");
            for (String line : guess.lines()) {
                out.append(line).append('\n');
            }
            assumed.add("tool " + name + ": " + guess.shape().word() + ", "
                    + String.join(", ", guess.lines())
                            .replace("\"", "")
                            .replace(" = ", " ")
                            .replace('_', ' ') + " ("
                    + guess.why() + ")");
        }
        return lone;
    }

    /** A TOML basic string. */
    static String quoted(String text) {
        StringBuilder out = new StringBuilder("\"");
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"' || c == '\\') {
                out.append('\\').append(c);
            } else if (c < ' ' || c == 127) {
                out.append(String.format(java.util.Locale.ROOT, "\\u%04x", (int) c));
            } else {
                out.append(c);
            }
        }
        return out.append('"').toString();
    }
}

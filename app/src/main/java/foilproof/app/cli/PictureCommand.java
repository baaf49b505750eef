package foilproof.app.cli;

import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.SourceSpan;
import foilproof.source.Spelling;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code picture JOB -o FILE.png}: renders off screen. */
final class PictureCommand implements Command {
    private static final List<String> VIEWS = List.of("top", "bottom", "oblique", "section", "solder", "component");
    private static final List<String> COLOURS =
            List.of("material", "depth", "foil-left", "margin", "tool", "line", "time", "width");
    private static final List<String> FACTORS = List.of("1", "5", "20", "50");
    private static final List<String> COMPARISONS = List.of("swipe", "difference");
    private static final Pattern WHOLE = Pattern.compile("\\d{1,6}");
    private static final Pattern ANGLE = Pattern.compile("-?\\d{1,3}(?:\\.\\d{1,3})?");
    private static final Pattern ENDS =
            Pattern.compile("\\s*(-?\\d{1,4}(?:\\.\\d{1,6})?)(?:\\s*,\\s*(-?\\d{1,4}(?:\\.\\d{1,6})?)){3}\\s*");
    private static final Pattern SIZE = Pattern.compile("(\\d{1,5})x(\\d{1,5})");
    private static final Pattern MOMENT =
            Pattern.compile("(?:(?:(\\d{1,3}):)?(\\d{1,4}):)?(\\d{1,7}(?:\\.\\d{1,6})?)(?: ?s)?");
    private static final int LEAST_PX = 16;
    private static final int MOST_PX = 8192;

    @Override
    public CommandSpec spec() {
        CommandSpec spec = Specs.command("picture", "Draws one picture of the board, off screen; needs no display.");
        JobOptions.addTo(spec, true);
        spec.addOption(Specs.value("FILE.png", "Where the picture goes.", "-o", "--out"));
        spec.addOption(Specs.value(
                "VIEW",
                "top, bottom, oblique (unless said), section, solder (the bottom copper from its own side) or component"
                        + " (the other side).",
                "--view"));
        spec.addOption(Specs.value(
                "TIME",
                "The moment since the job's start, seconds or min:s, e.g. 12.5 or 2:05; its end unless said.",
                "--at"));
        spec.addOption(Specs.value("WxH", "Size in pixels; 1920x1080 unless said.", "--size"));
        spec.addOption(Specs.value("N", "The side that lies up, from 1.", "--side"));
        spec.addOption(Specs.value("WHAT", "Colours by " + String.join(", ", COLOURS) + ".", "--colour-by"));
        spec.addOption(Specs.value("FACTOR", "Draws Z 1, 5, 20 or 50 times as high.", "--exaggerate"));
        spec.addOption(Specs.flag("--dark", "Dark page."));
        spec.addOption(Specs.flag("--no-findings", "Marks no findings (and does not look for them)."));
        spec.addOption(Specs.value("N", "Close-up of the finding with this number.", "--finding"));
        spec.addOption(Specs.flag("--through", "Draws what was cut from the far face over this one."));
        spec.addOption(Specs.value(
                "HOW", "Holds the what-ifs of --set against the job without them: swipe or difference.", "--compare"));
        spec.addOption(Specs.value("DEG", "Turns the blank over by this angle about its declared axis.", "--turn"));
        spec.addOption(Specs.value("X0,Y0,X1,Y1", "Ends of a section, mm from the lower-left corner.", "--along"));
        return spec;
    }

    private static Screens.PictureOptions options(ParseResult given) throws InputException {
        return new Screens.PictureOptions(
                whole(given, "--side"),
                oneOf(given, "--colour-by", "material", COLOURS),
                Double.parseDouble(oneOf(given, "--exaggerate", "1", FACTORS)),
                given.hasMatchedOption("--dark"),
                !given.hasMatchedOption("--no-findings"),
                whole(given, "--finding"),
                given.hasMatchedOption("--through"),
                given.hasMatchedOption("--compare") ? oneOf(given, "--compare", "swipe", COMPARISONS) : null,
                angle(given),
                ends(given));
    }

    private static String oneOf(ParseResult given, String option, String unlessSaid, List<String> words)
            throws InputException {
        String word = given.matchedOptionValue(option, unlessSaid);
        if (!words.contains(word)) {
            throw bad(
                    option,
                    "\"" + word + "\" cannot be asked for.",
                    "Expected " + String.join(", ", words) + ".",
                    Spelling.nearest(word, words));
        }
        return word;
    }

    private static int whole(ParseResult given, String option) throws InputException {
        String text = given.matchedOptionValue(option, "0");
        if (!WHOLE.matcher(text).matches() || given.hasMatchedOption(option) && Integer.parseInt(text) == 0) {
            throw bad(option, "\"" + text + "\" is no number.", "Expected a whole number from 1.", null);
        }
        return Integer.parseInt(text);
    }

    private static double angle(ParseResult given) throws InputException {
        String text = given.matchedOptionValue("--turn", "0");
        if (!ANGLE.matcher(text).matches()) {
            throw bad("--turn", "\"" + text + "\" is no angle.", "Expected degrees, e.g. 120.", null);
        }
        return Double.parseDouble(text);
    }

    private static double @Nullable [] ends(ParseResult given) throws InputException {
        String text = given.matchedOptionValue("--along", null);
        if (text == null) {
            return null;
        }
        if (!ENDS.matcher(text).matches()) {
            throw bad("--along", "The ends cannot be read.", "Expected x0,y0,x1,y1 in mm, e.g. 0,12.5,40,12.5.", null);
        }
        double[] ends = new double[4];
        List<String> parts = List.of(text.split(",", -1));
        for (int i = 0; i < 4; i++) {
            ends[i] = Double.parseDouble(parts.get(i).strip());
        }
        if (Math.hypot(ends[2] - ends[0], ends[3] - ends[1]) < 0.01) {
            throw bad("--along", "The ends lie on each other.", "They must be at least 0.01 mm apart.", null);
        }
        return ends;
    }

    @Override
    public int run(ParseResult given, Console console) throws InputException, IOException {
        String file = given.matchedOptionValue("-o", null);
        if (file == null) {
            throw bad("-o", "No file is named for the picture.", "Expected -o FILE.png.", null);
        }
        Path path = JobOptions.path(file);
        if (!file.toLowerCase(Locale.ROOT).endsWith(".png")) {
            throw bad("-o", "\"" + file + "\" does not end in .png.", "Pictures are written as PNG.", null);
        }
        String view = given.matchedOptionValue("--view", "oblique");
        if (!VIEWS.contains(view)) {
            String near = Spelling.nearest(view, VIEWS);
            throw bad(
                    "--view", "There is no view \"" + view + "\".", "Expected " + String.join(", ", VIEWS) + ".", near);
        }
        Matcher size = SIZE.matcher(given.matchedOptionValue("--size", "1920x1080"));
        if (!size.matches() || !fits(size.group(1)) || !fits(size.group(2))) {
            String expected =
                    "Expected WIDTHxHEIGHT in pixels, each " + LEAST_PX + " to " + MOST_PX + ", e.g. 1280x720.";
            throw bad("--size", "The size cannot be read or drawn.", expected, null);
        }
        Screens.PictureWish wish = new Screens.PictureWish(
                path,
                view,
                momentS(given.matchedOptionValue("--at", null)),
                Integer.parseInt(size.group(1)),
                Integer.parseInt(size.group(2)),
                options(given));
        JobSource source = JobOptions.source(given);
        ReadOptions options = JobOptions.readOptions(given);
        int code = GraphicsDoor.open(console, screens -> screens.picture(source, options, wish));
        if (code == ExitCode.FINE) {
            console.out().println("Written: " + path);
        }
        return code;
    }

    /** Seconds of a moment: seconds, min:s or h:min:s. */
    static @Nullable Double momentS(@Nullable String text) throws InputException {
        if (text == null) {
            return null;
        }
        Matcher moment = MOMENT.matcher(text.strip());
        if (!moment.matches()) {
            throw bad("--at", "\"" + text + "\" is no moment.", "Expected seconds or min:s, e.g. 12.5 or 2:05.", null);
        }
        double hours = moment.group(1) == null ? 0 : Integer.parseInt(moment.group(1));
        double minutes = moment.group(2) == null ? 0 : Integer.parseInt(moment.group(2));
        return hours * 3600 + minutes * 60 + Double.parseDouble(moment.group(3));
    }

    private static boolean fits(String pixels) {
        int value = Integer.parseInt(pixels);
        return value >= LEAST_PX && value <= MOST_PX;
    }

    private static InputException bad(String option, String message, String expected, @Nullable String nearest) {
        return new InputException(Diagnostic.of(SourceSpan.ofFile(option), "bad-option", message)
                .expecting(expected)
                .near(nearest));
    }
}

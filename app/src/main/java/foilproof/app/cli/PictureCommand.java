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
    private static final List<String> VIEWS = List.of("top", "bottom", "oblique", "section");
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
        spec.addOption(Specs.value("VIEW", "top, bottom, oblique (unless said) or section.", "--view"));
        spec.addOption(Specs.value(
                "TIME",
                "The moment since the job's start, seconds or min:s, e.g. 12.5 or 2:05; its end unless said.",
                "--at"));
        spec.addOption(Specs.value("WxH", "Size in pixels; 1920x1080 unless said.", "--size"));
        return spec;
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
                Integer.parseInt(size.group(2)));
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

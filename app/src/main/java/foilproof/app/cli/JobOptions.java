package foilproof.app.cli;

import foilproof.bench.DiskFiles;
import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import foilproof.source.Diagnostic;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** What every command that reads a job shares: the JOB and the options that say how it is read. */
final class JobOptions {
    private JobOptions() {}

    /** Adds the JOB and its options. */
    static CommandSpec addTo(CommandSpec spec, boolean jobRequired) {
        spec.addPositional(Specs.word("JOB", "A job.toml, a folder that holds one, or a program file.", jobRequired));
        spec.addOption(Specs.values(
                "KEY=VALUE",
                "Changes any value of the job, e.g. tool.engraver.tip_width=\"0.13 mm\", or asks what if:"
                        + " z_error.engraver=\"0.05 mm\" (+ = really deeper), bow=\"0.08 mm\" (the blank's middle low by"
                        + " this), in_collet.1=cutter. May be given many times; the last of a key wins.",
                "--set"));
        spec.addOption(Specs.value("FILE", "Takes machine, spread, limits and tools from this shop file.", "--shop"));
        spec.addOption(Specs.flag("--no-shop", "Leaves your own shop file out."));
        spec.addOption(Specs.flag("--allow-outside", "Lets the job name files outside its folder."));
        return spec;
    }

    /**
     * Where the job is read from.
     *
     * @throws InputException where there is no such job
     */
    static JobSource source(ParseResult given) throws InputException {
        return DiskFiles.source(path(given.matchedPositionalValue(0, "")));
    }

    /**
     * How the job is read.
     *
     * @throws InputException where a shop file cannot be read
     */
    static ReadOptions readOptions(ParseResult given) throws InputException {
        boolean noShop = given.hasMatchedOption("--no-shop");
        String named = given.matchedOptionValue("--shop", null);
        if (noShop && named != null) {
            throw new InputException(Diagnostic.of(
                    SourceSpan.ofFile("command line"), "shop-twice", "--shop and --no-shop exclude each other."));
        }
        String[] settings = given.matchedOptionValue("--set", new String[0]);
        return new ReadOptions(
                given.hasMatchedOption("--allow-outside"),
                named == null ? null : shop(path(named)),
                noShop || named != null ? null : userShop(),
                List.of(settings),
                InputLimits.DEFAULT);
    }

    /**
     * A path that a person typed.
     *
     * @throws InputException where the text is no path
     */
    static Path path(String text) throws InputException {
        try {
            return Path.of(text);
        } catch (InvalidPathException e) {
            throw new InputException(Diagnostic.of(
                    SourceSpan.ofFile("command line"),
                    "no-path",
                    "\"" + text + "\" is no file name: " + e.getReason() + "."));
        }
    }

    private static @Nullable SourceFile userShop() throws InputException {
        Path file = UserFolders.shopFile();
        return file != null && Files.isRegularFile(file) ? shop(file) : null;
    }

    private static SourceFile shop(Path file) throws InputException {
        String name = file.toString().replace('\\', '/');
        try {
            if (!Files.isRegularFile(file)) {
                throw new InputException(
                        Diagnostic.of(SourceSpan.ofFile(name), "missing-file", "There is no such shop file."));
            }
            if (Files.size(file) > InputLimits.DEFAULT.fileBytes()) {
                throw new InputException(Diagnostic.of(
                        SourceSpan.ofFile(name), "too-large", "The shop file is larger than any should be."));
            }
            return SourceFile.of(name, Files.readAllBytes(file));
        } catch (IOException e) {
            throw new InputException(
                    Diagnostic.of(SourceSpan.ofFile(name), "unreadable", "The shop file cannot be read."));
        }
    }
}

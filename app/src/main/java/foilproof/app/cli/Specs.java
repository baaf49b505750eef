package foilproof.app.cli;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/** Shorthand for command specifications. */
final class Specs {
    private static final int HELP_WIDTH = 100;

    private Specs() {}

    /** A command with its {@code --help}. */
    static CommandSpec command(String name, String description) {
        CommandSpec spec = CommandSpec.create().name(name);
        spec.usageMessage().description(description).width(HELP_WIDTH).abbreviateSynopsis(true);
        spec.addOption(OptionSpec.builder("-h", "--help")
                .usageHelp(true)
                .description("Shows this help.")
                .build());
        return spec;
    }

    /** A flag. */
    static OptionSpec flag(String name, String description) {
        return OptionSpec.builder(name).description(description).build();
    }

    /** An option with one value. */
    static OptionSpec value(String label, String description, String... names) {
        return OptionSpec.builder(names[0], java.util.Arrays.copyOfRange(names, 1, names.length))
                .paramLabel(label)
                .type(String.class)
                .description(description)
                .build();
    }

    /** An option that may be given many times. */
    static OptionSpec values(String label, String description, String name) {
        return OptionSpec.builder(name)
                .paramLabel(label)
                .type(String[].class)
                .arity("1")
                .description(description)
                .build();
    }

    /** The word that the command is about. */
    static PositionalParamSpec word(String label, String description, boolean required) {
        return PositionalParamSpec.builder()
                .paramLabel(label)
                .index("0")
                .arity(required ? "1" : "0..1")
                .required(required)
                .type(String.class)
                .description(description)
                .build();
    }
}

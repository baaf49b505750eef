package foilproof.findings;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * How findings speak: no minus nought, one thing in the singular, no kind's identifier in a sentence, cutters in
 * quotation marks, one spelling of a unit. Held on every job that the tests of checks, corpora and samples run.
 */
public final class Wording {
    private static final Pattern MINUS_NOUGHT = Pattern.compile("(?<![\\w.])-0(\\.0+)?(?![\\d.])");
    private static final Pattern ONE_OF_MANY = Pattern.compile(
            "(?<![\\d.,/:-])(?<!side )1 (?:[a-z-]+ ){0,2}(?:holes|pads|pins|vias|lands|traces|nets"
                    + "|joins|pieces|gaps|programs|tabs|lines|moves|changes|cutters|findings|stretches|places|runs|arcs|pairs|bores"
                    + "|rapids|cycles|files|minutes|seconds|hours|copies|joints|rings|grooves|slots|letters|objects)\\b");
    private static final Pattern MILLIOHM = Pattern.compile("\\b[Mm]ohm\\b");
    private static final Pattern BARE_CUTTER =
            Pattern.compile("(?<![\\w\"])(?:engraver|isolator|pencil|copper mill|through mill|hole mill)(?![\\w\"])");
    /** Words of the trade that are kinds too. */
    private static final Set<String> TRADE = Set.of("spin-up", "look-alike");

    private Wording() {}

    /** Holds findings and all that is folded under them. */
    public static void holds(List<Finding> findings) {
        for (Finding f : findings) {
            for (String text : new String[] {f.message(), f.doThis()}) {
                assertThat(text).as("no minus nought").doesNotContainPattern(MINUS_NOUGHT);
                assertThat(text).as("one thing in the singular").doesNotContainPattern(ONE_OF_MANY);
                assertThat(text).as("milliohm").doesNotContainPattern(MILLIOHM);
                // a line of a program is quoted as it stands
                assertThat(f.kind().equals(Kinds.PROGRAM_ERROR) || f.kind().equals(Kinds.CYCLE_SUSPECT) ? "" : text)
                        .as("cutters in quotation marks")
                        .doesNotContainPattern(BARE_CUTTER);
                for (String kind : Kinds.ALL) {
                    if (kind.contains("-") && !TRADE.contains(kind)) {
                        assertThat(text)
                                .as("no identifier in a sentence")
                                .doesNotContainPattern("(?<![\\w-])" + kind + "(?![\\w-])");
                    }
                }
            }
            holds(f.consequences());
        }
    }
}

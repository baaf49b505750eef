package foilproof.report;

import static org.assertj.core.api.Assertions.assertThat;

import foilproof.findings.Kinds;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

class ExplanationTest {
    @Test
    void shouldExplainEveryKindThatMayBeRaised() {
        assertThat(Explanation.all().keySet()).containsAll(Kinds.ALL);
    }

    @Test
    void shouldSayLimitsAndAvoidWordsThatMislead() {
        for (Explanation one : Explanation.all().values()) {
            assertThat(one.limits()).as(one.kind()).isNotEmpty();
            String all = one.title() + one.means() + one.why() + one.doThis() + one.limits();
            assertThat(all)
                    .as(one.kind())
                    .doesNotContain(" mil ")
                    .doesNotContain("mils")
                    .doesNotContain("origin");
            assertThat(List.of(one.means(), one.why(), one.doThis()))
                    .as(one.kind())
                    .allMatch(t -> t.endsWith(".") || t.endsWith(")."));
        }
    }

    @Test
    void shouldNameTheVersionOfTheBuild() throws Exception {
        Path here = Path.of("").toAbsolutePath();
        Path pom = Files.exists(here.resolve("engine/pom.xml"))
                ? here.resolve("pom.xml")
                : here.getParent().resolve("pom.xml");
        assertThat(Files.readString(pom)).contains("<version>" + Version.NUMBER + "</version>");
    }
}

package foilproof.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class HtmlReportTest {
    private static final FlatPicture PICTURE = new FlatPicture(
            "side-1-copper",
            "Side 1",
            40,
            30,
            0.1,
            (y, rgb) -> java.util.Arrays.fill(rgb, 0x808080),
            List.of(),
            List.of());

    @Test
    void shouldStandOnItsOwnWithoutNetworkOrScript() {
        String page = HtmlReport.write(
                SampleResults.nasty(),
                new ReportExtras(List.of(PICTURE), (program, line) -> "G1 X1 <b>", finding -> PICTURE));
        assertThat(page).contains("data:image/png;base64,").contains("<pre>3  G1 X1 &lt;b&gt;</pre>");
        assertThat(page)
                .doesNotContain("<script")
                .doesNotContain("http:")
                .doesNotContain("https:")
                .doesNotContain("url(http");
        assertThat(page).doesNotContain("</script><b>").contains("&lt;/script&gt;&lt;b&gt;");
        assertThat(page)
                .contains("Not checked")
                .contains("no netlist or layer image given")
                .contains("-0.077 to +0.050 mm");
        assertThat(page).contains("@page").contains("1 consequence");
    }

    @Test
    void shouldCloseEveryElementThatItOpens() {
        String page = HtmlReport.write(SampleResults.nasty(), ReportExtras.NONE);
        for (String name :
                List.of("div", "table", "tr", "td", "th", "p", "ul", "li", "article", "svg", "h2", "pattern")) {
            assertThat(count(page, "<" + name + "[ >]")).as(name).isEqualTo(count(page, "</" + name + ">"));
        }
    }

    @Test
    void shouldWriteEveryFileWholeAndLeaveNothingElse(@TempDir Path folder) throws Exception {
        Path out = folder.resolve("new/report");
        ReportExtras extras = new ReportExtras(List.of(PICTURE), (program, line) -> null, finding -> null);
        for (int again = 0; again < 2; again++) {
            ReportFiles.write(out, SampleResults.nasty(), extras);
            try (var files = Files.list(out)) {
                assertThat(files.map(p -> p.getFileName().toString()).sorted())
                        .containsExactly("findings.sarif", "report.html", "result.json", "side-1-copper.png");
            }
        }
        assertThat(Files.readString(out.resolve("result.json"))).isEqualTo(ResultJson.write(SampleResults.nasty()));
    }

    private static int count(String text, String regex) {
        return (int) Pattern.compile(regex).matcher(text).results().count();
    }
}

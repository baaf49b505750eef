package foilproof.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import foilproof.findings.Severity;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

class ResultJsonTest {
    private static final ObjectMapper JSON = new ObjectMapper();

    @Test
    void shouldFollowItsOwnSchema() throws Exception {
        var factory = JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012);
        try (var in = ResultDocument.class.getResourceAsStream("result.schema.json")) {
            var schema = factory.getSchema(in);
            for (ResultDocument result : List.of(SampleResults.clean(), SampleResults.nasty())) {
                assertThat(schema.validate(JSON.readTree(ResultJson.write(result))))
                        .isEmpty();
            }
            // The schema has teeth: a result without a verdict is refused.
            var broken = (com.fasterxml.jackson.databind.node.ObjectNode)
                    JSON.readTree(ResultJson.write(SampleResults.clean()));
            broken.remove("verdict");
            assertThat(schema.validate(broken)).isNotEmpty();
        }
    }

    @Test
    void shouldHoldTheKeysOfTheContract() throws Exception {
        JsonNode result = JSON.readTree(ResultJson.write(SampleResults.nasty()));
        assertThat(names(result))
                .contains(
                        "schema",
                        "job",
                        "verdict",
                        "cell_um",
                        "assumed",
                        "inputs",
                        "z_window",
                        "z_window_joint",
                        "findings",
                        "not_checked",
                        "sides",
                        "removed_mm3",
                        "tools",
                        "holes",
                        "nets",
                        "time");
        assertThat(names(result.get("z_window").get(0)))
                .contains(
                        "tool",
                        "side",
                        "from_mm",
                        "to_mm",
                        "plus_minus_mm",
                        "fix_from_mm",
                        "fix_to_mm",
                        "limited_from",
                        "limited_to",
                        "spread_mm",
                        "margin_mm");
        assertThat(names(result.get("findings").get(0)))
                .contains(
                        "kind",
                        "severity",
                        "certainty",
                        "message",
                        "do",
                        "side",
                        "at_mm",
                        "box_mm",
                        "program",
                        "line",
                        "time_s",
                        "tool",
                        "measured",
                        "limit",
                        "margin_mm",
                        "consequences");
        assertThat(names(result.get("sides").get(0)))
                .contains("face", "copper_mm2", "pieces", "cleared_mm2", "foil_left_mm2");
        assertThat(names(result.get("tools").get(0)))
                .contains("name", "runs", "cut_length_mm", "deepest_mm", "in_substrate_mm", "time_s");
        assertThat(names(result.get("holes").get(0)))
                .contains("side", "at_mm", "entry_mm", "exit_mm", "through", "ring_mm");
        assertThat(names(result.get("nets").get(0)))
                .contains("name", "pieces", "shorted_with", "narrowest_mm", "resistance_mohm", "rise_k");
        assertThat(names(result.get("time"))).contains("total_s", "cutting_s", "rapid_s", "tool_changes");
    }

    @Test
    void shouldPrintTheZWindowRoundedInwardToAMicrometre() throws Exception {
        JsonNode window = JSON.readTree(ResultJson.write(SampleResults.clean()))
                .get("z_window")
                .get(0);
        // -0.0776 .. +0.050 (needs.md section 6, job 1) is printed -0.077 .. +0.050.
        assertThat(window.get("from_mm").asText()).isEqualTo("-0.077");
        assertThat(window.get("to_mm").asText()).isEqualTo("0.05");
        assertThat(window.get("plus_minus_mm").asText()).isEqualTo("0.001");
        assertThat(window.get("fix_to_mm").isNull()).isTrue();
    }

    @Test
    void shouldNeverPrintMinusZeroOrNotANumber() throws Exception {
        String text = ResultJson.write(SampleResults.nasty());
        assertThat(text)
                .doesNotContain("-0.0,")
                .doesNotContain("-0.0]")
                .doesNotContain("NaN")
                .contains("\"at_mm\":null");
        assertThat(text).contains("0.333333").contains("\\u0001").contains("\\u2028");
        assertThat(JSON.readTree(text).get("findings").get(0).get("message").asText())
                .endsWith("</script><b>\u0001\u2028");
    }

    @Test
    void shouldGiveTheSameBytesInEveryLocale() {
        Locale before = Locale.getDefault();
        String expected =
                ResultJson.write(SampleResults.nasty()) + HtmlReport.write(SampleResults.nasty(), ReportExtras.NONE);
        try {
            for (String tag : List.of("de-DE", "tr-TR", "ar-EG-u-nu-arab")) {
                Locale.setDefault(Locale.forLanguageTag(tag));
                assertThat(ResultJson.write(SampleResults.nasty())
                                + HtmlReport.write(SampleResults.nasty(), ReportExtras.NONE))
                        .isEqualTo(expected);
            }
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void shouldTakeTheVerdictFromTheWorstFindingFoldedOnesIncluded() {
        assertThat(SampleResults.clean().verdict()).isEqualTo(Verdict.CLEAN);
        assertThat(SampleResults.nasty().verdict()).isEqualTo(Verdict.STOP);
        var watch = SampleResults.nasty().findings().get(0).withSeverity(Severity.WATCH);
        assertThat(Verdict.of(List.of(watch))).isEqualTo(Verdict.STOP);
    }

    private static List<String> names(JsonNode node) {
        List<String> out = new java.util.ArrayList<>();
        node.fieldNames().forEachRemaining(out::add);
        return out;
    }
}

package foilproof.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import org.junit.jupiter.api.Test;

/** Against the published schema of SARIF v2.1.0 (OASIS Standard, 27 March 2020), as a registry package carries it. */
class SarifJsonTest {
    private static final ObjectMapper JSON = new ObjectMapper();

    @Test
    void shouldFollowThePublishedSchema() throws Exception {
        JsonSchema schema = published();
        assertThat(schema.validate(JSON.readTree(SarifJson.write(SampleResults.clean()))))
                .isEmpty();
        assertThat(schema.validate(JSON.readTree(SarifJson.write(SampleResults.nasty()))))
                .isEmpty();
    }

    @Test
    void shouldBeJudgedByASchemaThatRefusesWhatIsWrong() throws Exception {
        JsonSchema schema = published();
        // check-values J1: the smallest valid log; J2: tool and results' message are required; J3: levels.
        String smallest = "{\"version\":\"2.1.0\",\"runs\":[{\"tool\":{\"driver\":{\"name\":\"x\"}},\"results\":[]}]}";
        assertThat(schema.validate(JSON.readTree(smallest))).isEmpty();
        assertThat(schema.validate(JSON.readTree("{\"version\":\"2.1.0\",\"runs\":[{\"results\":[]}]}")))
                .isNotEmpty();
        String level = smallest.replace("[]}]", "[{\"message\":{\"text\":\"a\"},\"level\":\"fatal\"}]}]");
        assertThat(schema.validate(JSON.readTree(level))).isNotEmpty();
    }

    @Test
    void shouldPointAtThePhysicalLineAndFoldConsequences() throws Exception {
        JsonNode run = JSON.readTree(SarifJson.write(SampleResults.nasty()))
                .get("runs")
                .get(0);
        JsonNode result = run.get("results").get(0);
        assertThat(result.get("level").asText()).isEqualTo("error");
        JsonNode place = result.get("locations").get(0).get("physicalLocation");
        assertThat(place.get("region").get("startLine").asInt()).isEqualTo(3);
        assertThat(place.get("artifactLocation").get("uri").asText()).isEqualTo("bores%20%22a%22%20%26%20b.ngc");
        assertThat(result.get("relatedLocations")).hasSize(1);
        assertThat(run.get("tool")
                        .get("driver")
                        .get("rules")
                        .get(result.get("ruleIndex").asInt())
                        .get("id")
                        .asText())
                .isEqualTo(result.get("ruleId").asText());
        assertThat(run.get("results").get(1).get("level").asText()).isEqualTo("note");
        assertThat(run.get("invocations").get(0).get("toolExecutionNotifications"))
                .hasSize(1);
    }

    private static JsonSchema published() throws Exception {
        try (var in = SarifJsonTest.class.getResourceAsStream("/schema/sarif-schema-2.1.0.json")) {
            return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V7).getSchema(in);
        }
    }
}

package foilproof.report;

import foilproof.findings.Finding;
import foilproof.findings.Kinds;
import foilproof.findings.Measured;
import foilproof.findings.NotChecked;
import foilproof.findings.Severity;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Writes findings as SARIF v2.1.0 (OASIS Standard, 27 March 2020), so that editors and review tools show them at their
 * program lines. {@code startLine} is the physical line of the program file. Consequences folded under a finding are
 * its related locations; coordinates, moments and margins stand in the property bags.
 */
public final class SarifJson {
    private static final int MM = Decimals.MM_DECIMALS;

    private SarifJson() {}

    /** The log as JSON text, ended by a line feed. */
    public static String write(ResultDocument result) {
        List<String> rules = rules(result.findings());
        JsonText json = new JsonText().object().text("version", "2.1.0");
        json.array("runs").object();
        json.object("tool").object("driver").text("name", Version.NAME).text("version", Version.NUMBER);
        json.array("rules");
        for (String rule : rules) {
            rule(json, rule);
        }
        json.end().end().end();
        json.text("columnKind", "utf16CodeUnits");
        json.array("invocations").object().truth("executionSuccessful", true);
        json.array("toolExecutionNotifications");
        for (NotChecked item : result.notChecked()) {
            json.object().text("level", "note");
            message(json, "message", "Not checked: " + item.what() + ". " + item.why());
            json.end();
        }
        json.end().end().end();
        json.array("artifacts");
        for (ResultDocument.InputFile input : result.inputs()) {
            json.object().object("location").text("uri", uri(input.file())).end();
            json.object("hashes").text("sha-256", input.sha256()).end().end();
        }
        json.end().array("results");
        for (Finding finding : result.findings()) {
            result(json, finding, rules.indexOf(finding.kind()));
        }
        json.end();
        json.object("properties")
                .text("job", result.job())
                .text("verdict", result.verdict().word())
                .end();
        return json.end().end().end().toString();
    }

    private static List<String> rules(List<Finding> findings) {
        Set<String> used = new TreeSet<>();
        findings.forEach(finding -> used.add(finding.kind()));
        List<String> out = new ArrayList<>();
        for (String kind : Kinds.ALL) {
            if (used.remove(kind)) {
                out.add(kind);
            }
        }
        out.addAll(used);
        return out;
    }

    private static void rule(JsonText json, String kind) {
        json.object().text("id", kind);
        Explanation explanation = Explanation.of(kind);
        if (explanation != null) {
            message(json, "shortDescription", explanation.title());
            message(json, "fullDescription", explanation.means() + " " + explanation.why());
            message(json, "help", explanation.doThis());
        }
        json.end();
    }

    private static void result(JsonText json, Finding finding, int rule) {
        json.object().text("ruleId", finding.kind()).whole("ruleIndex", rule);
        json.text("level", level(finding.severity()));
        message(
                json,
                "message",
                finding.doThis().isEmpty() ? finding.message() : finding.message() + " " + finding.doThis());
        json.array("locations");
        if (finding.program() != null) {
            location(json, finding.program(), finding.line(), null);
        }
        json.end();
        if (!finding.consequences().isEmpty()) {
            json.array("relatedLocations");
            related(json, finding.consequences());
            json.end();
        }
        json.number("rank", rank(finding.severity()), 1);
        json.object("properties").text("severity", finding.severity().word());
        json.text("certainty", finding.certainty().word()).text("do", finding.doThis());
        json.whole("side", finding.side()).numbers("at_mm", finding.atMm(), MM).numbers("box_mm", finding.boxMm(), MM);
        json.number("time_s", finding.timeS(), 3).text("tool", finding.tool());
        Measured measured = finding.measured();
        if (measured != null) {
            json.object("measured").text("name", measured.name()).number("value", measured.value(), MM);
            json.text("unit", measured.unit())
                    .number("plus_minus", measured.plusMinus(), MM)
                    .end();
        }
        if (finding.limit() != null) {
            json.object("limit")
                    .number("value", finding.limit().value(), MM)
                    .text("unit", finding.limit().unit())
                    .end();
        }
        json.number("margin_mm", finding.marginMm(), MM).end().end();
    }

    private static void related(JsonText json, List<Finding> consequences) {
        for (Finding consequence : consequences) {
            location(
                    json, consequence.program(), consequence.line(), consequence.kind() + ": " + consequence.message());
            related(json, consequence.consequences());
        }
    }

    private static void location(
            JsonText json, @Nullable String program, @Nullable Integer line, @Nullable String message) {
        json.object();
        if (program != null) {
            json.object("physicalLocation")
                    .object("artifactLocation")
                    .text("uri", uri(program))
                    .end();
            if (line != null && line > 0) {
                json.object("region").whole("startLine", line).end();
            }
            json.end();
        }
        if (message != null) {
            message(json, "message", message);
        }
        json.end();
    }

    private static void message(JsonText json, String name, String text) {
        json.object(name).text("text", text).end();
    }

    private static String level(Severity severity) {
        return switch (severity) {
            case STOP, FIX -> "error";
            case WATCH -> "warning";
            case NOTE -> "note";
        };
    }

    private static double rank(Severity severity) {
        return switch (severity) {
            case STOP -> 100;
            case FIX -> 70;
            case WATCH -> 40;
            case NOTE -> 10;
        };
    }

    /** A relative reference (RFC 3986): forward slashes stay, everything that is not unreserved is percent-encoded. */
    static String uri(String file) {
        StringBuilder out = new StringBuilder();
        for (byte b : file.replace('\\', '/').getBytes(StandardCharsets.UTF_8)) {
            char c = (char) (b & 0xff);
            if (c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || "-._~/".indexOf(c) >= 0) {
                out.append(c);
            } else {
                String hex = "0123456789ABCDEF";
                out.append('%').append(hex.charAt(c >> 4)).append(hex.charAt(c & 15));
            }
        }
        return out.toString();
    }
}

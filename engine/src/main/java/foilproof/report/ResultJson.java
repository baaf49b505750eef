package foilproof.report;

import static foilproof.report.Decimals.MM_DECIMALS;

import foilproof.findings.Finding;
import foilproof.findings.Limit;
import foilproof.findings.Measured;
import foilproof.findings.NotChecked;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Writes {@code result.json}. The keys are a contract with other people's scripts ({@code result.schema.json} in the
 * resources): more may be added, none may change. Lengths are rounded to 1 nm, Z windows inward to 1 um.
 */
public final class ResultJson {
    /** Version of the keys. */
    public static final int SCHEMA = 1;

    private static final int SECONDS_DECIMALS = 3;
    private static final int OTHER_DECIMALS = 6;

    private ResultJson() {}

    /** The document as JSON text, UTF-8 clean, ended by a line feed. */
    public static String write(ResultDocument result) {
        JsonText json = new JsonText().object();
        json.whole("schema", SCHEMA).text("job", result.job());
        json.text("verdict", result.verdict().word()).number("cell_um", result.cellUm(), 3);
        texts(json, "assumed", result.assumed());
        json.array("inputs");
        for (ResultDocument.InputFile input : result.inputs()) {
            json.object()
                    .text("file", input.file())
                    .text("sha256", input.sha256())
                    .end();
        }
        json.end().array("set_up");
        for (ResultDocument.SetUp line : result.setUp()) {
            json.object().text("what", line.what()).text("value", line.value()).end();
        }
        json.end();
        windows(json, result);
        findings(json, "findings", result.findings(), result.approval());
        json.array("not_checked");
        for (NotChecked item : result.notChecked()) {
            json.object().text("what", item.what()).text("why", item.why()).end();
        }
        json.end();
        sides(json, result.sides());
        json.object("removed_mm3").number("foil", result.removed().foilMm3(), MM_DECIMALS);
        json.number("substrate", result.removed().substrateMm3(), MM_DECIMALS);
        json.number("spoil_board", result.removed().spoilBoardMm3(), MM_DECIMALS)
                .end();
        tools(json, result.tools());
        runs(json, result.runs());
        holes(json, result.holes());
        nets(json, result.nets());
        ResultDocument.TimeFacts time = result.time();
        json.object("time").number("total_s", time.totalS(), SECONDS_DECIMALS);
        json.number("cutting_s", time.cuttingS(), SECONDS_DECIMALS).number("rapid_s", time.rapidS(), SECONDS_DECIMALS);
        json.whole("tool_changes", time.toolChanges()).end();
        approval(json, result.approval());
        restart(json, result.restart());
        return json.end().toString();
    }

    private static void restart(JsonText json, ResultDocument.@Nullable Restart card) {
        if (card == null) {
            return;
        }
        json.object("restart").text("program", card.program()).whole("line", card.line());
        json.truth("fresh_blank", card.freshBlank()).text("tool", card.tool()).whole("side", card.side());
        json.number("x_mm", card.atMm()[0], MM_DECIMALS).number("y_mm", card.atMm()[1], MM_DECIMALS);
        json.number("z_mm", card.atMm()[2], MM_DECIMALS).number("clear_mm", card.clearMm(), MM_DECIMALS);
        texts(json, "steps", card.steps());
        texts(json, "problems", card.problems());
        json.end();
    }

    private static void approval(JsonText json, Approval approval) {
        json.text("inputs_sha256", approval.inputsHash().isEmpty() ? null : approval.inputsHash());
        json.array("accepted");
        for (Approval.Accepted one : approval.accepted()) {
            json.object()
                    .whole("finding", one.finding())
                    .text("reason", one.reason())
                    .end();
        }
        json.end().array("accepted_expired");
        for (Approval.Expired one : approval.expired()) {
            json.object().text("kind", one.acceptance().kind());
            json.text("severity", one.acceptance().severity());
            json.text("program", one.acceptance().program())
                    .whole("line", one.acceptance().line());
            json.text("reason", one.acceptance().reason())
                    .text("why", one.why())
                    .end();
        }
        json.end().array("remains");
        for (Approval.Remains one : approval.remains()) {
            json.object().whole("finding", one.finding()).text("assuming", one.assuming());
            json.text("verdict", one.verdict().word());
            findings(json, "findings", one.findings(), Approval.NONE);
            json.end();
        }
        json.end();
        Comparison against = approval.against();
        if (against == null) {
            json.nothing("against");
        } else {
            against(json, against);
        }
    }

    private static void against(JsonText json, Comparison against) {
        json.object("against").text("verdict", against.oldVerdict()).truth("nothing_changed", against.nothing());
        json.array("inputs");
        for (Comparison.InputChange input : against.inputs()) {
            json.object().text("file", input.file()).text("change", input.change());
            json.text("old_sha256", input.oldSha256())
                    .text("sha256", input.sha256())
                    .end();
        }
        json.end();
        differences(json, "set_up", against.setUp());
        told(json, "appeared", against.appeared());
        told(json, "gone", against.gone());
        json.whole("unchanged", against.unchanged());
        differences(json, "z_window", against.windows());
        json.object("time").number("old_total_s", against.oldTotalS(), SECONDS_DECIMALS);
        json.number("total_s", against.totalS(), SECONDS_DECIMALS).end().end();
    }

    private static void differences(JsonText json, String name, List<Comparison.Difference> differences) {
        json.array(name);
        for (Comparison.Difference d : differences) {
            json.object()
                    .text("what", d.what())
                    .text("old", d.before())
                    .text("new", d.now())
                    .end();
        }
        json.end();
    }

    private static void told(JsonText json, String name, List<Comparison.Told> all) {
        json.array(name);
        for (Comparison.Told f : all) {
            json.object().text("kind", f.kind()).text("severity", f.severity()).text("message", f.message());
            json.whole("side", f.side()).numbers("at_mm", f.atMm(), MM_DECIMALS);
            json.text("program", f.program())
                    .whole("line", f.line())
                    .text("tool", f.tool())
                    .end();
        }
        json.end();
    }

    static void windows(JsonText json, ResultDocument result) {
        json.array("z_window");
        for (ResultDocument.ZWindow window : result.zWindows()) {
            json.object()
                    .text("tool", window.tool())
                    .whole("side", window.side())
                    .whole("run", window.run());
            json.truth("empty", window.empty());
            json.number("from_mm", up(window.fromMm()), 3).number("to_mm", down(window.toMm()), 3);
            json.number("plus_minus_mm", Decimals.upToUm(window.plusMinusMm()), 3);
            json.number("fix_from_mm", up(window.fixFromMm()), 3).number("fix_to_mm", down(window.fixToMm()), 3);
            limitedBy(json, "limited_from", window.limitedFrom());
            limitedBy(json, "limited_to", window.limitedTo());
            json.numbers("spread_mm", window.spreadMm(), MM_DECIMALS);
            json.number("margin_mm", down(window.marginMm()), 3);
            if (window.note() != null) {
                json.text("note", window.note());
            }
            json.end();
        }
        json.end();
        ResultDocument.JointWindow joint = result.zWindowJoint();
        if (joint == null) {
            json.nothing("z_window_joint");
            return;
        }
        json.object("z_window_joint").truth("empty", joint.empty());
        json.number("from_mm", up(joint.fromMm()), 3).number("to_mm", down(joint.toMm()), 3);
        limitedBy(json, "limited_from", joint.limitedFrom());
        limitedBy(json, "limited_to", joint.limitedTo());
        json.end();
    }

    private static void limitedBy(JsonText json, String name, ResultDocument.@Nullable LimitedBy limit) {
        if (limit == null) {
            json.nothing(name);
        } else {
            json.object(name)
                    .text("kind", limit.kind())
                    .numbers("at_mm", limit.atMm(), MM_DECIMALS)
                    .end();
        }
    }

    private static void findings(JsonText json, String name, List<Finding> findings, Approval approval) {
        json.array(name);
        for (int i = 0; i < findings.size(); i++) {
            Finding finding = findings.get(i);
            json.object()
                    .text("kind", finding.kind())
                    .text("severity", finding.severity().word());
            json.text("certainty", finding.certainty().word());
            json.text("message", finding.message()).text("do", finding.doThis());
            json.whole("side", finding.side());
            json.numbers("at_mm", finding.atMm(), MM_DECIMALS).numbers("box_mm", finding.boxMm(), MM_DECIMALS);
            json.text("program", finding.program()).whole("line", finding.line());
            json.number("time_s", finding.timeS(), SECONDS_DECIMALS).text("tool", finding.tool());
            Measured measured = finding.measured();
            if (measured == null) {
                json.nothing("measured");
            } else {
                json.object("measured").text("name", measured.name());
                json.number("value", measured.value(), OTHER_DECIMALS).text("unit", measured.unit());
                json.number("plus_minus", measured.plusMinus(), OTHER_DECIMALS).end();
            }
            Limit limit = finding.limit();
            if (limit == null) {
                json.nothing("limit");
            } else {
                json.object("limit")
                        .number("value", limit.value(), OTHER_DECIMALS)
                        .text("unit", limit.unit())
                        .end();
            }
            json.number("margin_mm", finding.marginMm(), MM_DECIMALS);
            findings(json, "consequences", finding.consequences(), Approval.NONE);
            String accepted = approval.reasonFor(i + 1);
            if (accepted != null) {
                json.text("accepted", accepted);
            }
            json.end();
        }
        json.end();
    }

    private static void sides(JsonText json, List<ResultDocument.SideFacts> sides) {
        json.array("sides");
        for (ResultDocument.SideFacts side : sides) {
            json.object().text("face", side.face()).number("copper_mm2", side.copperMm2(), MM_DECIMALS);
            json.whole("pieces", side.pieces()).number("cleared_mm2", side.clearedMm2(), MM_DECIMALS);
            json.number("foil_left_mm2", side.foilLeftMm2(), MM_DECIMALS).end();
        }
        json.end();
    }

    private static void tools(JsonText json, List<ResultDocument.ToolFacts> tools) {
        json.array("tools");
        for (ResultDocument.ToolFacts tool : tools) {
            json.object().text("name", tool.name()).whole("number", tool.number());
            json.text("shape", tool.shape()).text("duty", tool.duty());
            json.whole("runs", tool.runs()).number("cut_length_mm", tool.cutLengthMm(), 3);
            json.number("deepest_mm", tool.deepestMm(), MM_DECIMALS);
            json.number("in_substrate_mm", tool.inSubstrateMm(), 3).number("time_s", tool.timeS(), SECONDS_DECIMALS);
            json.numbers("feed_mm_per_min", tool.feedMmPerMin(), 3)
                    .numbers("spindle_rpm", tool.spindleRpm(), 3)
                    .number("removal_mm3_per_min", tool.removalMm3PerMin(), 2)
                    .number("least_width_share", tool.leastShareInCut(), 2)
                    .end();
        }
        json.end();
    }

    private static void runs(JsonText json, List<ResultDocument.RunFacts> runs) {
        json.array("runs");
        for (ResultDocument.RunFacts run : runs) {
            json.object().whole("run", run.run()).text("tool", run.tool()).whole("side", run.side());
            json.text("program", run.program()).whole("line", run.line());
            json.number("from_s", run.fromS(), SECONDS_DECIMALS).number("to_s", run.toS(), SECONDS_DECIMALS);
            json.number("deepest_mm", run.deepestMm(), MM_DECIMALS).end();
        }
        json.end();
    }

    private static void holes(JsonText json, List<ResultDocument.HoleFacts> holes) {
        json.array("holes");
        for (ResultDocument.HoleFacts hole : holes) {
            json.object().whole("side", hole.side()).numbers("at_mm", hole.atMm(), MM_DECIMALS);
            json.number("entry_mm", hole.entryMm(), MM_DECIMALS).number("exit_mm", hole.exitMm(), MM_DECIMALS);
            json.truth("through", hole.through()).number("ring_mm", hole.ringMm(), MM_DECIMALS);
            json.text("tool", hole.tool()).whole("line", hole.line()).end();
        }
        json.end();
    }

    private static void nets(JsonText json, List<ResultDocument.NetFacts> nets) {
        json.array("nets");
        for (ResultDocument.NetFacts net : nets) {
            json.object().text("name", net.name()).whole("pieces", net.pieces());
            texts(json, "shorted_with", net.shortedWith());
            json.number("narrowest_mm", net.narrowestMm(), MM_DECIMALS);
            json.number("resistance_mohm", net.resistanceMohm(), 3)
                    .number("rise_k", net.riseK(), 2)
                    .end();
        }
        json.end();
    }

    private static void texts(JsonText json, String name, List<String> values) {
        json.array(name);
        values.forEach(json::text);
        json.end();
    }

    private static @Nullable Double up(@Nullable Double valueMm) {
        return valueMm == null || !Double.isFinite(valueMm) ? null : Double.valueOf(Decimals.upToUm(valueMm));
    }

    private static @Nullable Double down(@Nullable Double valueMm) {
        return valueMm == null || !Double.isFinite(valueMm) ? null : Double.valueOf(Decimals.downToUm(valueMm));
    }
}

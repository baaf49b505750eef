package foilproof.report;

import foilproof.findings.Finding;
import foilproof.study.BestDepth;
import foilproof.study.Change;
import foilproof.study.Odds;
import foilproof.study.Study;
import java.util.List;

/** Writes a study as JSON: the Z windows of the job, then what each change does to its findings. */
public final class StudyJson {
    private StudyJson() {}

    /** The study as JSON text, ended by a line feed. */
    public static String write(ResultDocument base, Study study) {
        JsonText json = new JsonText().object();
        json.whole("schema", ResultJson.SCHEMA).text("job", base.job());
        json.text("verdict", base.verdict().word()).number("cell_um", base.cellUm(), 3);
        ResultJson.windows(json, base);
        changes(json, "swaps", study.swaps());
        changes(json, "variations", study.variations());
        json.array("best_depth");
        for (BestDepth b : study.best()) {
            json.object().text("tool", b.tool()).whole("side", b.side()).whole("run", b.run() + 1);
            json.number("shift_mm", b.shiftMm(), 3).number("depth_mm", b.depthMm(), 3);
            json.number("margin_mm", b.marginMm(), 3).truth("complete", b.complete());
            json.array("edits");
            for (BestDepth.Edit edit : b.edits()) {
                json.object()
                        .text("program", edit.program())
                        .text("difference", edit.difference())
                        .end();
            }
            json.end().end();
        }
        json.end();
        Odds odds = study.odds();
        if (odds == null) {
            json.nothing("odds");
        } else {
            json.object("odds").whole("trials", odds.trials()).whole("good", odds.good());
            json.number("share_good", (double) odds.good() / odds.trials(), 4).text("seed", Long.toString(odds.seed()));
            json.array("causes");
            for (Odds.Cause cause : odds.causes()) {
                json.object()
                        .text("what", cause.what())
                        .whole("failures", cause.failures())
                        .end();
            }
            json.end().end();
        }
        json.array("not_studied");
        study.notStudied().forEach(json::text);
        return json.end().end().toString();
    }

    private static void changes(JsonText json, String name, List<Change> changes) {
        json.array(name);
        for (Change change : changes) {
            json.object().text("what", change.what()).truth("only_eyes", change.onlyEyes());
            counts(json, "appeared", change.appeared());
            counts(json, "gone", change.gone());
            Finding first = change.first();
            if (first == null) {
                json.nothing("first");
            } else {
                json.object("first").text("kind", first.kind()).text("program", first.program());
                json.whole("line", first.line())
                        .number("time_s", first.timeS(), 3)
                        .text("message", first.message())
                        .end();
            }
            json.end();
        }
        json.end();
    }

    private static void counts(JsonText json, String name, List<Change.Count> counts) {
        json.array(name);
        for (Change.Count count : counts) {
            json.object()
                    .text("kind", count.kind())
                    .text("severity", count.severity().word());
            json.whole("count", count.count()).end();
        }
        json.end();
    }
}

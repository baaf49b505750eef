package foilproof.report;

import foilproof.bench.Side;
import foilproof.findings.Examination;
import foilproof.findings.Finding;
import foilproof.findings.Measured;
import foilproof.findings.NotChecked;
import foilproof.findings.Severity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Writes {@code report.html}: one file that needs no network and no script, legible in grey on A4 and Letter. It bears no
 * date, so that the same inputs give the same bytes; the sign-off box has room for one.
 */
public final class HtmlReport {
    private static final String STYLE = """
            :root{color-scheme:light}
            body{font:15px/1.45 "DejaVu Sans",Verdana,sans-serif;color:#111;background:#fff;max-width:52rem;margin:2rem auto;padding:0 1rem}
            h1{font-size:1.5rem;margin:0 0 .3rem}h2{font-size:1.12rem;margin:2rem 0 .5rem;border-bottom:2px solid #111;padding-bottom:.15rem}
            h3{font-size:1rem;margin:0}
            .verdict{border:3px solid #111;padding:.6rem .9rem;margin:1rem 0;font-size:1.05rem}
            .verdict b{font-size:1.35rem;text-transform:uppercase;letter-spacing:.06em;margin-right:.6rem}
            .stop{border-left-width:16px}.fix{border-left-width:11px}.watch{border-left-width:6px;border-left-style:double}.note,.clean{border-left-width:3px}
            table{border-collapse:collapse;width:100%;margin:.4rem 0;font-size:.8rem}
            th,td{border-bottom:1px solid #999;padding:.25rem .45rem;text-align:left;vertical-align:top}
            th{border-bottom:2px solid #111}th[scope=row]{border-bottom:1px solid #999;white-space:nowrap}.n{text-align:right;font-variant-numeric:tabular-nums}
            .finding{border:1px solid #555;margin:.6rem 0;padding:.5rem .8rem;box-decoration-break:clone;-webkit-box-decoration-break:clone}.core,.finding li{break-inside:avoid}
            .finding p{margin:.25rem 0}.tag{display:inline-block;border:1px solid #111;padding:0 .4rem;margin-right:.4rem;font-size:.8rem;text-transform:uppercase}
            .tag.certain{text-transform:none;border-style:dashed}
            li .where{margin:.1rem 0}.where,.numbers{color:#333;font-size:.88rem}.do::before{content:"Do this: ";font-weight:bold}
            pre{background:#f1f1f1;border-left:3px solid #777;padding:.3rem .6rem;margin:.3rem 0;overflow-x:auto;font:.85rem "DejaVu Sans Mono",monospace}
            .bars{width:100%;height:auto;font:12px "DejaVu Sans",Verdana,sans-serif}
            figure{margin:.8rem 0;break-inside:avoid}figure.board{display:inline-block;vertical-align:top;margin:.5rem .8rem .6rem 0;max-width:100%}
            figure.board svg{max-width:100%;height:auto;display:block}figcaption{font-size:.78rem;color:#222;line-height:1.35}figcaption svg{display:inline-block!important;vertical-align:baseline}
            .key{white-space:nowrap;margin-right:.5rem}.hash{font:.72rem "DejaVu Sans Mono",monospace;word-break:break-all}
            .close{display:flex;flex-wrap:wrap;gap:1rem;align-items:flex-start}.close figure{margin:.5rem 0}
            .worst{margin:.4rem 0;padding:0;list-style:none}.worst li{margin:.2rem 0;display:flex;align-items:baseline}.worst b{min-width:1.6rem}.worst .tag{min-width:3.6rem;text-align:center;font-size:.72rem}
            .sign td{height:2.2rem}.cutters span{display:inline-block;margin-right:1.5rem;vertical-align:bottom}.cutters svg{display:block}
            svg.setup{max-width:100%;height:auto}.true{margin:0}.page{break-before:page}
            .small{font-size:.82rem;color:#333}.small svg{vertical-align:baseline}td.n,th.n{white-space:nowrap}thead{display:table-header-group}.tools td:nth-child(3){min-width:10rem}.tools td.n{white-space:normal}.holes td{white-space:nowrap}.facts{margin:.2rem 0}.facts th{width:6rem}
            html{-webkit-print-color-adjust:exact;print-color-adjust:exact}
            @page{margin:14mm}
            @media print{body{max-width:none;margin:0;padding:0;font-size:10pt}h1{font-size:16pt}h2{break-after:avoid;margin:1.1rem 0 .4rem}h2+.small{break-after:avoid}.pictures{orphans:1;widows:1}table{break-inside:auto;font-size:8.5pt}tr{break-inside:avoid}th,td{padding:.16rem .35rem}a{color:inherit}.small,figcaption{font-size:8.5pt}.lead{break-after:page;font-size:9pt}.lead ul{margin:.1rem 0}.lead h2{margin:.5rem 0 .2rem;font-size:11pt}.lead p{margin:.2rem 0}.lead table{font-size:8pt;margin:.15rem 0}.lead th,.lead td{padding:.09rem .35rem}.lead .small,.lead .open{font-size:8pt}.lead .worst li{margin:.05rem 0}.lead .verdict{margin:.4rem 0;padding:.3rem .7rem;font-size:10.5pt}.lead .sign td{height:1.7rem;padding:.3rem .35rem}.lead .bars{max-height:40mm}.lead .worst{columns:2;column-gap:8mm}.lead .worst li{break-inside:avoid}.lead ul.open{columns:2;column-gap:8mm}.lead ul.open li{break-inside:avoid}.close{gap:.6rem}.finding{padding:.3rem .6rem}.finding p,.finding pre,.finding ul{margin:.15rem 0}}
            """;

    /** Findings above a note that the first page names. */
    private static final int MOST_WORST = 6;

    /** Tool runs that the first page names. */
    private static final int MOST_RUNS = 8;

    /** Consequences that are not folded away. */
    private static final int OPEN = 3;

    /** Places of one kind that are named in a line. */
    private static final int MOST_PLACES = 12;

    private static final Pattern NUMBERS = Pattern.compile("[-+]?[0-9]+(\\.[0-9]+)?");

    private static final Pattern LANDS =
            Pattern.compile("\\b(land|pad|pin|via) (at \\([^)]*\\) mm|[A-Z][A-Za-z0-9]*-[A-Za-z0-9]+)");

    private final ResultDocument result;
    private final ReportExtras extras;
    private final Painted painted;
    private final Html html = new Html();

    private HtmlReport(ResultDocument result, ReportExtras extras, Painted painted) {
        this.result = result;
        this.extras = extras;
        this.painted = painted;
    }

    /** The whole page. */
    public static String write(ResultDocument result, ReportExtras extras) {
        return write(result, extras, new Painted());
    }

    static String write(ResultDocument result, ReportExtras extras, Painted painted) {
        HtmlReport report = new HtmlReport(result, extras, painted);
        report.page();
        return report.html.toString();
    }

    private void page() {
        html.raw("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">");
        html.raw("<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">");
        html.element("title", result.job() + " \u2013 " + result.verdict().word());
        html.raw("<style>\n" + STYLE + "</style></head><body>\n");
        html.raw("<div class=\"lead\">\n");
        header();
        bars();
        worst();
        notChecked();
        job();
        if (result.approval().against() != null || !result.approval().expired().isEmpty()) {
            changes();
        }
        signOff();
        html.raw("</div>\n");
        windows();
        findings();
        restart();
        Examination x = extras.examination();
        BenchSections bench = x == null ? null : new BenchSections(x, result, html);
        if (bench != null) {
            bench.setUpMap();
        }
        pictures();
        runs();
        if (bench != null) {
            bench.runSheet();
        }
        tools(bench);
        holes();
        if (bench != null) {
            bench.slivers();
        }
        nets();
        if (bench != null) {
            bench.continuityCard();
            bench.viaCard();
        }
        sides();
        inputs();
        limitsOfTheModel();
        if (bench != null) {
            bench.template();
        }
        html.raw("</body></html>\n");
    }

    private void header() {
        html.element("h1", result.job());
        html.raw("<p class=\"small\">").text("Dry run by " + Version.NAME + " " + Version.NUMBER + ", cells of ");
        html.text(Decimals.plain(result.cellUm(), 3)
                + " um. Coordinates: mm from the blank's lower-left corner, seen with the ");
        html.text("side's face up; Z 0 is the nominal foil top, down is negative.")
                .raw("</p>\n");
        html.raw("<div class=\"verdict " + result.verdict().word() + "\"><b>")
                .text(result.verdict().word())
                .raw("</b> ");
        html.text(sentence(result)).raw("</div>\n");
    }

    /** What lies on the table and what will run, in the order in which it does. */
    private void job() {
        html.element("h2", "The job");
        html.raw("<table class=\"facts\"><tbody>\n");
        for (ResultDocument.SetUp line : result.setUp()) {
            html.raw("<tr><th scope=\"row\">")
                    .text(HumanText.sentence(line.what()))
                    .raw("</th><td>");
            html.text(line.value()).raw("</td></tr>\n");
        }
        ResultDocument.TimeFacts time = result.time();
        html.raw("<tr><th scope=\"row\">Time</th><td>")
                .text(HumanText.clock(time.totalS()) + ", cutting " + HumanText.clock(time.cuttingS()) + ", rapid "
                        + HumanText.clock(time.rapidS()) + ", tool changes: " + time.toolChanges())
                .raw("</td></tr>\n");
        if (result.approval().against() == null) {
            html.raw("<tr><th scope=\"row\">Approval</th><td>")
                    .text("not compared with an earlier result")
                    .raw("</td></tr>\n");
        }
        String hash = result.approval().inputsHash();
        if (!hash.isEmpty()) {
            html.raw("<tr><th scope=\"row\">All inputs</th><td class=\"hash\">SHA-256 ")
                    .text(hash)
                    .raw("</td></tr>\n");
        }
        html.endTable();
        if (result.runs().isEmpty()) {
            return;
        }
        html.head("#Run", "#Side", "Tool", "Program", "SHA-256 begins", "#At", "#Takes", "#Deepest Z");
        for (ResultDocument.RunFacts run :
                result.runs().subList(0, Math.min(MOST_RUNS, result.runs().size()))) {
            html.row(
                    "#" + run.run(),
                    "#" + run.side(),
                    run.tool(),
                    run.program() + " line " + run.line(),
                    hashOf(run.program()),
                    "#" + HumanText.clock(run.fromS()),
                    "#" + HumanText.clock(run.toS() - run.fromS()),
                    run.deepestMm() == null ? null : "#" + HumanText.signedLength(run.deepestMm()));
        }
        html.endTable();
        if (result.runs().size() > MOST_RUNS) {
            html.element(
                    "p class=\"small\"",
                    "And " + (result.runs().size() - MOST_RUNS) + " more tool runs, listed with the tool changes.");
        }
    }

    private @Nullable String hashOf(String file) {
        for (ResultDocument.InputFile input : result.inputs()) {
            if (input.file().equals(file)) {
                return input.sha256().substring(0, Math.min(12, input.sha256().length()));
            }
        }
        return null;
    }

    /** What the verdict means, in a sentence that counts. */
    static String sentence(ResultDocument result) {
        int[] counts = new int[4];
        result.findings().forEach(finding -> counts[finding.severity().ordinal()]++);
        String count = counts[0] + " stop, " + counts[1] + " fix, " + counts[2] + " watch, " + counts[3] + " note";
        String open = result.notChecked().isEmpty()
                ? ""
                : " " + result.notChecked().size() + (result.notChecked().size() == 1 ? " thing was" : " things were")
                        + " not checked.";
        String means =
                switch (result.verdict()) {
                    case STOP -> "Do not run this job.";
                    case FIX -> "The board is likely to come off bad.";
                    case WATCH -> "Right only if the stated set-up holds or a rule of thumb is forgiven.";
                    case CLEAN -> "Nothing above a note was found.";
                };
        return means + " Findings: " + count + "." + open;
    }

    /** One line each for what decides. */
    private void worst() {
        List<Finding> told = result.findings().stream()
                .filter(f -> f.severity() != Severity.NOTE)
                .toList();
        if (told.isEmpty()) {
            return;
        }
        html.element("h2", "The worst");
        html.raw("<ul class=\"worst\">\n");
        for (int i = 0; i < Math.min(MOST_WORST, told.size()); i++) {
            Finding f = told.get(i);
            Explanation explanation = Explanation.of(f.kind());
            String where = (f.side() == null ? "" : "side " + f.side())
                    + (f.program() == null ? "" : (f.side() == null ? "" : ", ") + f.program())
                    + (f.line() == null ? "" : " line " + f.line());
            html.raw("<li><b>" + (result.findings().indexOf(f) + 1) + "</b><span class=\"tag\">"
                    + f.severity().word() + "</span>");
            html.raw("<span>")
                    .text((explanation == null ? f.kind() : explanation.title())
                            + (where.isEmpty() ? "" : ": " + where))
                    .raw("</span></li>\n");
        }
        html.raw("</ul>\n");
        if (told.size() > MOST_WORST) {
            html.element("p class=\"small\"", "And " + (told.size() - MOST_WORST) + " more above a note.");
        }
    }

    private void bars() {
        if (result.zWindows().isEmpty()) {
            return;
        }
        html.element("h2", "Z window: how far Z may be off");
        html.raw("<p class=\"small\">")
                .text("Solid: every copper and duty check holds. Hatched: nothing at fix or stop. ");
        html.text("Bracket: the Z error that your set-up allows. Dashed line: Z as programmed.")
                .raw("</p>\n");
        html.raw(ZWindowBars.svg(result.zWindows()));
        for (ResultDocument.ZWindow window : result.zWindows()) {
            if (window.note() != null) {
                html.element("p", "Run " + window.run() + " (" + window.tool() + "): " + window.note());
            }
        }
    }

    private void notChecked() {
        html.element("h2", "Not checked");
        if (result.notChecked().isEmpty()) {
            html.element("p", "Nothing is known to have been left out, beyond the limits of the model at the end.");
            return;
        }
        html.raw("<ul class=\"open\">\n");
        for (NotChecked item : result.notChecked()) {
            html.raw("<li><b>")
                    .text(HumanText.sentence(item.what()))
                    .raw("</b>: ")
                    .text(item.why())
                    .raw("</li>\n");
        }
        html.raw("</ul>\n");
    }

    private void windows() {
        html.element("h2", "Z window of each tool run, in numbers");
        if (result.zWindows().isEmpty()) {
            html.element("p", "No tool run cuts copper, or none could be judged.");
            return;
        }
        html.head("Run", "Tool", "Window", "Limited below by", "Limited above by", "#Margin", "#+/- mm");
        for (ResultDocument.ZWindow window : result.zWindows()) {
            html.row(
                    "run " + window.run() + ", side " + window.side(),
                    window.tool(),
                    window.empty() ? "none" : HumanText.window(window.fromMm(), window.toMm()),
                    limitedBy(window.limitedFrom()),
                    limitedBy(window.limitedTo()),
                    window.marginMm() == null
                            ? null
                            : "#" + HumanText.signedLength(Decimals.downToUm(window.marginMm())),
                    "#" + Decimals.fixed(Decimals.upToUm(window.plusMinusMm()), 3));
        }
        html.endTable();
        ResultDocument.JointWindow joint = result.zWindowJoint();
        if (joint != null) {
            html.element(
                    "p",
                    "The same Z error for all runs: " + HumanText.window(joint.empty(), joint.fromMm(), joint.toMm())
                            + ".");
        }
    }

    private static @Nullable String limitedBy(ResultDocument.@Nullable LimitedBy limit) {
        if (limit == null) {
            return null;
        }
        Explanation explanation = Explanation.of(limit.kind());
        return (explanation == null ? limit.kind() : explanation.title())
                + (limit.atMm() == null ? "" : " at " + HumanText.place(limit.atMm()));
    }

    private void findings() {
        html.element("h2", "Findings, worst first");
        if (result.findings().isEmpty()) {
            html.element("p", "None.");
        }
        result.findings().stream()
                .map(f -> extras.closeUps().of(f))
                .filter(java.util.Objects::nonNull)
                .findFirst()
                .ifPresent(closeUp ->
                        html.raw("<p class=\"small\">Colours of the close-ups: " + Figure.legend(closeUp) + "</p>\n"));
        int number = 0;
        for (Finding finding : result.findings()) {
            finding(++number, finding);
        }
    }

    private void finding(int number, Finding finding) {
        String severity = finding.severity().word();
        html.raw("<article class=\"finding " + severity + "\"><div class=\"core\"><h3>" + number
                + " <span class=\"tag\">" + severity + "</span>");
        html.raw("<span class=\"tag certain\">")
                .text(finding.certainty().word())
                .raw("</span>");
        Explanation explanation = Explanation.of(finding.kind());
        html.text(explanation == null ? finding.kind() : explanation.title()).raw("</h3>\n");
        html.element("p", finding.message());
        String where = HumanText.where(finding);
        if (!where.isEmpty()) {
            html.element("p class=\"where\"", HumanText.sentence(where));
        }
        String numbers = HumanText.numbers(finding);
        if (!numbers.isEmpty()) {
            html.element("p class=\"numbers\"", HumanText.sentence(numbers));
        }
        if (finding.program() != null && finding.line() != null) {
            String line = extras.lines().of(finding.program(), finding.line());
            if (line != null) {
                html.element("pre", finding.line() + "  " + shortened(line));
            }
        }
        if (!finding.doThis().isEmpty()) {
            html.element("p class=\"do\"", finding.doThis());
        }
        String reason = result.approval().reasonFor(number);
        if (reason != null) {
            html.element("p", "Accepted, because: " + reason);
        }
        FlatPicture closeUp = extras.closeUps().of(finding);
        if (closeUp != null) {
            html.raw("<div class=\"close\">\n");
            html.raw(Figure.html(closeUp, painted.bare(closeUp), Figure.scale(closeUp, 54, 54), false));
            section(finding);
            html.raw("</div>\n");
        }
        html.raw("</div>\n");
        Approval.Remains remains = result.approval().remainsOf(number);
        if (remains != null) {
            html.element(
                    "p",
                    "What remains if " + remains.assuming() + " (verdict then "
                            + remains.verdict().word() + "):");
            plain(remains.findings());
        }
        consequences(finding);
        html.raw("</article>\n");
    }

    private void section(Finding finding) {
        Examination x = extras.examination();
        double[] at = finding.atMm();
        Integer side = finding.side();
        if (x != null && at != null && side != null && side <= x.job().sides().size()) {
            String svg = BenchDrawings.section(x, side, at[0], at[1]);
            if (svg != null) {
                html.raw("<figure>" + svg + "</figure>\n");
            }
        }
    }

    private void plain(List<Finding> findings) {
        html.raw("<ul>\n");
        boolean any = false;
        for (Finding finding : findings) {
            if (finding.severity() != Severity.NOTE) {
                any = true;
                String where = HumanText.where(finding);
                html.element(
                        "li",
                        finding.severity().word() + ", " + finding.kind() + ": " + finding.message()
                                + (where.isEmpty() ? "" : " (" + where + ")"));
            }
        }
        html.raw(any ? "</ul>\n" : "<li>Nothing above a note.</li></ul>\n");
    }

    /** How to take a program up again at a line; coordinates as the program counts them. */
    private void restart() {
        ResultDocument.Restart card = result.restart();
        if (card == null) {
            return;
        }
        html.element("h2", "Restart card: " + card.program() + ", line " + card.line());
        html.element(
                "p",
                "For a person at the machine; the dry run drives nothing. Cutter: " + card.tool() + ", side "
                        + card.side()
                        + ". "
                        + (card.freshBlank()
                                ? "On a fresh blank: the lines before have not run on it."
                                : "On this very blank, after the lines before have run on it."));
        for (String problem : card.problems()) {
            html.element("p", "Do not begin there: " + problem);
        }
        html.raw("<ol>\n");
        for (String step : card.steps()) {
            html.element("li", step);
        }
        html.raw("</ol>\n");
    }

    private void changes() {
        Approval approval = result.approval();
        html.element("h2", "Changes since approval");
        Comparison against = approval.against();
        if (against != null) {
            html.raw("<ul>\n");
            against.lines().forEach(line -> html.element("li", line).raw("\n"));
            html.raw("</ul>\n");
        }
        for (Approval.Expired one : approval.expired()) {
            html.element(
                    "p",
                    "Accepted no longer (" + one.why() + "): "
                            + one.acceptance().severity() + " "
                            + one.acceptance().kind() + ", because: "
                            + one.acceptance().reason());
        }
    }

    /** What a person sees of a side that lies up. */
    static String looking(Examination x, Side side) {
        boolean solder = BenchSections.solderSide(side);
        String turned = side.number() == 1
                ? ""
                : " The blank was turned " + side.turned().word() + ".";
        return "You are looking at the "
                + (solder ? "solder side, components away" : "component side, components towards you")
                + "; X runs left to right as the blank lies on side " + side.number() + "." + turned;
    }

    /** What follows from a finding; what says the same of other places is one line. */
    private void consequences(Finding cause) {
        Map<String, List<Finding>> groups = new LinkedHashMap<>();
        for (Finding f : cause.consequences()) {
            groups.computeIfAbsent(pattern(f), k -> new ArrayList<>()).add(f);
        }
        List<Finding> same = groups.remove(pattern(cause));
        if (same != null) {
            elsewhere(cause, same);
        }
        if (groups.isEmpty()) {
            return;
        }
        int count = groups.values().stream().mapToInt(List::size).sum();
        html.element("p class=\"where\"", count == 1 ? "1 consequence:" : count + " consequences:");
        // Paper shows no folded text: the first ones always stand open.
        List<List<Finding>> all = List.copyOf(groups.values());
        int open = all.size() <= OPEN + 1 ? all.size() : OPEN;
        html.raw("<ul>\n");
        all.subList(0, open).forEach(this::group);
        html.raw("</ul>\n");
        if (open < all.size()) {
            int folded =
                    all.subList(open, all.size()).stream().mapToInt(List::size).sum();
            html.raw("<details><summary>")
                    .text("the other " + folded + " (all are in result.json)")
                    .raw("</summary><ul>\n");
            all.subList(open, all.size()).forEach(this::group);
            html.raw("</ul></details>\n");
        }
    }

    private void group(List<Finding> alike) {
        Finding first = alike.get(0);
        html.raw("<li>").text(first.severity().word() + ", " + first.kind() + ": " + first.message());
        String where = HumanText.where(first);
        html.text(where.isEmpty() ? "" : " (" + where + ")");
        if (alike.size() > 1) {
            elsewhere(first, alike.subList(1, alike.size()));
        }
        consequences(first);
        html.raw("</li>\n");
    }

    /** What a finding says but for its numbers and lands; what has no place stands alone. */
    private static String pattern(Finding finding) {
        String message = finding.atMm() == null
                ? finding.message()
                : NUMBERS.matcher(LANDS.matcher(finding.message()).replaceAll("$1"))
                        .replaceAll("");
        return finding.kind() + finding.severity() + message;
    }

    private void elsewhere(Finding first, List<Finding> others) {
        String places =
                others.stream().limit(MOST_PLACES).map(f -> place(first, f)).collect(Collectors.joining("; "));
        html.element(
                "p class=\"where\"",
                "The same at " + (others.size() == 1 ? "1 more place: " : others.size() + " more places: ") + places
                        + (others.size() > MOST_PLACES
                                ? "; and " + (others.size() - MOST_PLACES) + " more (all are in result.json)."
                                : "."));
        others.stream().filter(f -> !f.consequences().isEmpty()).forEach(this::consequences);
    }

    private static String place(Finding first, Finding other) {
        double[] at = other.atMm();
        Measured measured = other.measured();
        return (at == null ? "" : HumanText.place(at))
                + (Objects.equals(other.side(), first.side()) ? "" : " on side " + other.side())
                + (other.line() == null
                        ? ""
                        : (Objects.equals(other.program(), first.program()) ? "" : ", " + other.program()) + " line "
                                + other.line())
                + (measured == null || !measured.unit().equals("mm")
                        ? ""
                        : " with " + Decimals.fixed(measured.value(), 3) + " mm");
    }

    private static String shortened(String line) {
        return line.length() <= 160 ? line : line.substring(0, 157) + "...";
    }

    private void pictures() {
        if (extras.pictures().isEmpty()) {
            return;
        }
        html.element("h2", "Pictures");
        html.raw("<div class=\"pictures\">\n");
        extras.pictures().forEach(this::picture);
        html.raw("</div>\n");
    }

    /** The copper large, what is derived from it small, side by side; what would show nothing is said. */
    private void picture(FlatPicture picture) {
        String nothing = nothing(picture.name());
        if (nothing != null && !painted.shows(picture)) {
            html.element("p", nothing).raw("\n");
            return;
        }
        boolean large = picture.name().endsWith("-copper");
        double scale = Figure.scale(picture, large ? 175 : 86, large ? 120 : 86);
        html.raw(Figure.html(picture, painted.bare(picture), scale, true));
    }

    /** What an empty picture says; null where a picture is never empty. */
    private static @Nullable String nothing(String name) {
        String side = name.startsWith("side-") ? "Side " + name.substring(5, name.indexOf('-', 5)) : "";
        for (BoardPainter.Theme theme : BoardPainter.Theme.values()) {
            if (name.endsWith(theme.word()) && !theme.nothing().isEmpty()) {
                return side + ": " + theme.nothing();
            }
        }
        return null;
    }

    private void runs() {
        html.element("h2", "Tool runs and changes in time order");
        html.raw(RunStrip.svg(result));
    }

    private void tools(@Nullable BenchSections bench) {
        html.element("h2", "Tools");
        if (bench != null) {
            html.raw("<p class=\"cutters\">");
            for (ResultDocument.ToolFacts tool : result.tools()) {
                html.raw("<span>" + bench.toolPicture(tool.name())).text(tool.name());
                html.text(tool.duty() == null ? "" : ", for " + (tool.duty().equals("any") ? "any work" : tool.duty()))
                        .raw("</span> ");
            }
            html.raw("</p>\n");
        }
        html.raw("<div class=\"tools\">");
        html.head("Tool", "#T", "Shape", "Duty", "#Cut length", "#In substrate", "#Deepest Z", "#Feed", "#Spindle");
        for (ResultDocument.ToolFacts tool : result.tools()) {
            html.row(
                    tool.name(),
                    tool.number() == null ? null : "#" + tool.number(),
                    tool.shape(),
                    tool.duty(),
                    "#" + Decimals.fixed(tool.cutLengthMm(), 1) + " mm",
                    "#" + Decimals.fixed(tool.inSubstrateMm(), 1) + " mm",
                    tool.deepestMm() == null ? null : "#" + HumanText.signedLength(tool.deepestMm()),
                    range(tool.feedMmPerMin(), "mm/min"),
                    range(tool.spindleRpm(), "rpm"));
        }
        html.endTable().raw("</div>\n");
    }

    private static @Nullable String range(double @Nullable [] ends, String unit) {
        if (ends == null) {
            return null;
        }
        String low = Decimals.plain(ends[0], 1);
        String high = Decimals.plain(ends[1], 1);
        return "#" + (low.equals(high) ? low : low + " to " + high) + " " + unit;
    }

    private void holes() {
        html.element("h2", "Holes");
        if (result.holes().isEmpty()) {
            html.element("p", "None: nothing passes through the foil into the substrate.");
            return;
        }
        html.raw("<div class=\"holes\">");
        html.head(
                "#",
                "#Side",
                "#X, Y, mm",
                "#Entry, mm (thou)",
                "#Exit, mm (thou)",
                "Through",
                "#Ring, mm (thou)",
                "Tool",
                "#Line");
        int number = 0;
        for (ResultDocument.HoleFacts hole : result.holes()) {
            html.row(
                    "#" + ++number,
                    "#" + hole.side(),
                    "#" + Decimals.fixed(hole.atMm()[0], 3) + ", " + Decimals.fixed(hole.atMm()[1], 3),
                    "#" + bare(hole.entryMm()),
                    "#" + bare(hole.exitMm()),
                    hole.through() ? "yes" : "no",
                    hole.ringMm() == null ? null : "#" + bare(hole.ringMm()),
                    hole.tool(),
                    hole.line() == null ? null : "#" + hole.line());
        }
        html.endTable().raw("</div>\n");
    }

    /** Both units without their names, which stand in the head: 1.000 (39.4). */
    static String bare(double mm) {
        return Decimals.fixed(mm, 3) + " (" + Decimals.fixed(mm / 0.0254, 1) + ")";
    }

    private void nets() {
        List<ResultDocument.NetFacts> nets = result.nets();
        if (nets.isEmpty()) {
            return;
        }
        html.element("h2", "Nets");
        boolean known = nets.stream().anyMatch(n -> n.narrowestMm() != null || n.resistanceMohm() != null);
        if (known) {
            html.head("Net", "#Pieces", "Shorted with", "#Narrowest copper", "#Resistance", "#Rise");
        } else {
            html.head("Net", "#Pieces", "Shorted with");
        }
        for (ResultDocument.NetFacts net : nets) {
            String joined = net.shortedWith().isEmpty() ? null : String.join(", ", net.shortedWith());
            if (!known) {
                html.row(net.name(), "#" + net.pieces(), joined);
                continue;
            }
            html.row(
                    net.name(),
                    "#" + net.pieces(),
                    joined,
                    net.narrowestMm() == null ? null : "#" + HumanText.length(net.narrowestMm()),
                    net.resistanceMohm() == null ? null : "#" + Decimals.plain(net.resistanceMohm(), 1) + " mOhm",
                    net.riseK() == null ? null : "#" + Decimals.plain(net.riseK(), 1) + " K");
        }
        html.endTable();
        html.element(
                "p class=\"small\"",
                known
                        ? "Estimates for still air; they defer to the current edition of the standards and to licensed practice."
                        : "Narrowest copper, resistance and heat are worked out for nets whose current is stated.");
    }

    private void sides() {
        html.element("h2", "Copper and volumes");
        html.head(
                "#Side",
                "Copper layer",
                "#Copper",
                "#Pieces above 0.01 mm2",
                "#Cleared, holes included",
                "#Foil left in grooves");
        int number = 0;
        for (ResultDocument.SideFacts side : result.sides()) {
            html.row(
                    "#" + ++number,
                    side.face(),
                    "#" + HumanText.amount(side.copperMm2(), "mm2"),
                    "#" + side.pieces(),
                    "#" + HumanText.amount(side.clearedMm2(), "mm2"),
                    "#" + HumanText.amount(side.foilLeftMm2(), "mm2"));
        }
        html.endTable();
        ResultDocument.Removed removed = result.removed();
        html.element(
                "p",
                "Taken off: foil " + HumanText.amount(removed.foilMm3(), "mm3") + ", substrate "
                        + HumanText.amount(removed.substrateMm3(), "mm3") + ", spoil board "
                        + HumanText.amount(removed.spoilBoardMm3(), "mm3") + ".");
    }

    private void inputs() {
        html.element("h2", "Inputs");
        if (!result.assumed().isEmpty()) {
            html.raw("<p>").text("Assumed, because the inputs do not say:").raw("</p><ul>\n");
            result.assumed().forEach(line -> html.element("li", line).raw("\n"));
            html.raw("</ul>\n");
        }
        html.head("File", "SHA-256");
        for (ResultDocument.InputFile input : result.inputs()) {
            html.raw("<tr><td>")
                    .text(input.file())
                    .raw("</td><td class=\"hash\">")
                    .text(input.sha256())
                    .raw("</td></tr>\n");
        }
        html.endTable();
    }

    private void signOff() {
        html.raw(
                "<table class=\"sign\"><tbody><tr><th scope=\"row\">Sign-off: approved by</th><td></td><th scope=\"row\">Date</th>");
        html.raw("<td></td></tr></tbody></table>\n");
        html.element(
                "p class=\"small\"",
                "An approval holds for these bytes only: any change of a program, tool, blank or set-up voids it.");
    }

    private void limitsOfTheModel() {
        html.element("h2", "Limits of the model, and safety");
        html.element(
                "p class=\"small\"",
                "The model has one height a side and tool run (no undercuts) and knows no bending foil, burrs or packed chips; "
                        + "wear, breakage, peel and heat are rules over the geometry. Milling dust harms lungs, glass-fibre "
                        + "dust above all: use extraction and a mask, protect your eyes, and keep hands away until the spindle "
                        + "stands still.");
    }
}

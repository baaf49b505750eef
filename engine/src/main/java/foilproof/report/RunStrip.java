package foilproof.report;

import foilproof.findings.Finding;
import foilproof.findings.Severity;
import java.util.List;

/** The job as a strip of time, split by tool run, with marks where findings at fix or stop happen; inline SVG. */
final class RunStrip {
    private static final double WIDTH = 760;
    private static final double BAR_TOP = 18;
    private static final double BAR_HEIGHT = 22;

    private RunStrip() {}

    /** The strip, or nothing where the job takes no time. */
    static String svg(ResultDocument result) {
        double totalS = result.time().totalS();
        List<ResultDocument.RunFacts> runs = result.runs();
        if (!(totalS > 0) || runs.isEmpty()) {
            return "";
        }
        Html svg = new Html();
        svg.raw(
                "<svg class=\"bars\" viewBox=\"0 0 760 66\" role=\"img\" aria-label=\"The job as time, split by tool run\">");
        for (int i = 0; i < runs.size(); i++) {
            ResultDocument.RunFacts run = runs.get(i);
            double a = WIDTH * run.fromS() / totalS;
            double b = WIDTH * run.toS() / totalS;
            String fill = i % 2 == 0 ? "#d9dde1" : "#f4f4f4";
            svg.raw("<rect x=\"" + n(a) + "\" y=\"" + n(BAR_TOP) + "\" width=\"" + n(Math.max(1, b - a))
                    + "\" height=\"" + n(BAR_HEIGHT) + "\" fill=\"" + fill + "\" stroke=\"#111\"/>");
            if (b - a > 60) {
                svg.raw("<text x=\"" + n(a + 4) + "\" y=\"" + n(BAR_TOP + 15) + "\">");
                String label = run.run() + " " + run.tool();
                int fits = (int) ((b - a - 8) / 7);
                svg.text(label.length() <= fits ? label : label.substring(0, fits))
                        .raw("</text>");
            }
        }
        for (Finding finding : result.findings()) {
            if (finding.timeS() != null && finding.severity().atLeast(Severity.FIX)) {
                double x = WIDTH * Math.max(0, Math.min(1, finding.timeS() / totalS));
                svg.raw("<path d=\"M" + n(x) + " " + n(BAR_TOP) + "l-4 -8h8z\" fill=\"#111\"><title>");
                svg.text(finding.kind() + " at " + HumanText.clock(finding.timeS()))
                        .raw("</title></path>");
            }
        }
        svg.raw("<text x=\"0\" y=\"58\">0:00.0 min</text><text x=\"760\" y=\"58\" text-anchor=\"end\">");
        return svg.text(HumanText.clock(totalS)).raw("</text></svg>\n").toString();
    }

    private static String n(double value) {
        return Decimals.plain(value, 2);
    }
}

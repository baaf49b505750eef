package foilproof.report;

import foilproof.bench.Face;
import foilproof.bench.Join;
import foilproof.bench.KeepOut;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.electrical.NetVerdict;
import foilproof.findings.CopperPlaces;
import foilproof.findings.Examination;
import foilproof.findings.RemovalRate;
import java.util.List;
import java.util.OptionalDouble;

/** Sections of the report that need the examined job itself: set-up map, slivers, cards for the bench, template. */
final class BenchSections {
    private static final int MOST_SLIVERS = 60;
    /** Share of the width below which thinner chips are worth a word. */
    private static final double NEARLY_HALF = 0.45;

    private final Examination x;
    private final ResultDocument result;
    private final Html html;

    BenchSections(Examination x, ResultDocument result, Html html) {
        this.x = x;
        this.result = result;
        this.html = html;
    }

    /** What is on the table, drawn. */
    void setUpMap() {
        html.element("h2", "Set-up map");
        for (Side side : x.job().sides()) {
            html.element(
                    "p",
                    "Side " + side.number() + ": " + HtmlReport.looking(x, side) + " Held by "
                            + side.hold().word()
                            + ", tape " + Decimals.plain(side.tapeMm(), 3)
                            + " mm under it. Dashed: the machine's travel, where it is known.");
            html.raw("<figure>" + BenchDrawings.setUp(x, side) + "</figure>\n");
        }
        for (KeepOut box : x.job().keepOuts()) {
            html.element(
                    "p class=\"small\"",
                    box.name() + ": X " + Decimals.plain(box.x0Mm(), 2) + " to " + Decimals.plain(box.x1Mm(), 2)
                            + ", Y "
                            + Decimals.plain(box.y0Mm(), 2) + " to " + Decimals.plain(box.y1Mm(), 2) + ", top "
                            + HumanText.signedLength(box.topMm()) + " above the foil top.");
        }
    }

    /** The drawn shape of a cutter, or nothing where the job does not know it. */
    String toolPicture(String name) {
        Tool tool = x.job().toolNamed(name);
        return tool == null ? "" : BenchDrawings.tool(tool);
    }

    /** Thin strips, those first that can touch most. */
    void slivers() {
        html.element("h2", "Slivers and hairs, by reach");
        List<CopperPlaces.SliverPlace> all = CopperPlaces.sliversByReach(x);
        if (all.isEmpty()) {
            html.element("p", "None is left between two grooves.");
            return;
        }
        html.element(
                "p class=\"small\"",
                "Reach: how much longer the strip is than the gap to the nearest other copper; above 0 it can touch it when"
                        + " loose. A ranking, not a promise that it comes loose.");
        html.head("#", "#Side", "Place", "#Reach", "Can touch", "#Length", "#Base width", "#Top width", "#Free ends");
        for (int k = 0; k < Math.min(MOST_SLIVERS, all.size()); k++) {
            CopperPlaces.SliverPlace s = all.get(k);
            html.row(
                    "#" + (k + 1),
                    "#" + s.side(),
                    HumanText.place(new double[] {s.xMm(), s.yMm()}),
                    s.gapMm() == null ? "nothing near" : "#" + HumanText.signedLength(s.lengthMm() - s.gapMm()),
                    s.otherNet() == null ? "" : s.otherNet(),
                    "#" + HumanText.length(s.lengthMm()),
                    "#" + HumanText.length(s.baseMm()),
                    "#" + HumanText.length(s.topMm()),
                    "#" + s.freeEnds());
        }
        html.endTable();
        if (all.size() > MOST_SLIVERS) {
            html.element("p", "And " + (all.size() - MOST_SLIVERS) + " more with less reach.");
        }
    }

    /** What hands do between the runs, and what each cutter is set to. */
    void runSheet() {
        html.head("#At", "By hand", "Then run", "#Takes");
        int before = -1;
        for (ResultDocument.RunFacts run : result.runs()) {
            String turn = run.side() == before ? "" : "lay side " + run.side() + " up, ";
            before = run.side();
            html.row(
                    "#" + HumanText.clock(run.fromS()),
                    HumanText.sentence(turn + "fit \"" + run.tool() + "\", touch it off"),
                    run.program() + " from line " + run.line(),
                    "#" + HumanText.clock(run.toS() - run.fromS()));
        }
        html.endTable();
        html.element("h2", "Feeds and speeds");
        for (ResultDocument.ToolFacts tool : result.tools()) {
            double[] feed = tool.feedMmPerMin();
            double[] rpm = tool.spindleRpm();
            html.element(
                    "p",
                    tool.name() + ": "
                            + (tool.runs() == 0
                                    ? "not used."
                                    : (feed == null ? "never cuts" : span(feed) + " mm/min in material")
                                            + (rpm == null ? "" : " at " + span(rpm) + " rpm")
                                            + (tool.deepestMm() == null
                                                    ? "."
                                                    : ", down to "
                                                            + HumanText.length(Math.abs(tool.deepestMm()))
                                                            + (tool.deepestMm() > 0 ? " above" : " below")
                                                            + " the foil top.")
                                            + chips(tool)));
        }
    }

    /** How fast material comes off, and how thin chips get where little of the width is in the cut. */
    private static String chips(ResultDocument.ToolFacts tool) {
        Double rate = tool.removalMm3PerMin();
        Double share = tool.leastShareInCut();
        return (rate == null ? "" : " It takes off up to " + Decimals.plain(rate, 1) + " mm3/min.")
                + (share == null || share >= NEARLY_HALF || share <= 0
                        ? ""
                        : " Where only " + Decimals.fixed(share, 2)
                                + " of its width is in the cut, chips are "
                                + Decimals.fixed(RemovalRate.chipThinning(share), 1)
                                + " times thinner than the feed a tooth says.");
    }

    private static String span(double[] ends) {
        String low = Decimals.plain(ends[0], 1);
        String high = Decimals.plain(ends[1], 1);
        return low.equals(high) ? low : low + " to " + high;
    }

    /** Joints made by hand. */
    void viaCard() {
        NetVerdict verdict = x.design().verdict();
        List<Join> joins = x.job().joins();
        if (verdict == null && joins.isEmpty()) {
            return;
        }
        html.element("h2", "Vias and wires to make by hand");
        html.element("p class=\"small\"", "Places in the design's own coordinates, seen from the board's top.");
        if (joins.isEmpty()) {
            html.element("p", "The job declares none.");
        } else {
            html.head("#", "What", "From", "To", "#Wire");
            int number = 0;
            for (Join join : joins) {
                OptionalDouble wire = join.wireMm();
                html.row(
                        "#" + ++number,
                        join.through() ? "wire or lead through the board, soldered on both faces" : "wire link",
                        end(join.from()),
                        end(join.to()),
                        wire.isPresent() ? "#" + HumanText.length(wire.getAsDouble()) : null);
            }
            html.endTable();
        }
        if (verdict != null && !verdict.handJoins().isEmpty()) {
            StringBuilder pins = new StringBuilder();
            for (NetVerdict.HandJoin join : verdict.handJoins()) {
                if (join.kind().equals("pin")) {
                    pins.append(pins.length() == 0 ? "" : ", ")
                            .append(join.net().isEmpty() ? "no net" : join.net());
                    pins.append(" at ").append(HumanText.place(new double[] {join.xMm(), join.yMm()}));
                }
            }
            if (pins.length() > 0) {
                html.element("p", "Pins to solder on both faces: " + pins + ".");
            }
        }
    }

    private static String end(Join.End end) {
        return HumanText.place(new double[] {end.atMm().xMm(), end.atMm().yMm()}) + " "
                + end.face().word();
    }

    /** Pairs of places to put the probes of a meter on. */
    void continuityCard() {
        new ContinuityCard(x, result).write(html);
    }

    /** Outline and bores at their true size. */
    void template() {
        html.element("h2 class=\"page\"", "Paper template, 1:1");
        html.element(
                "p",
                "Print at 100 %, check the bar with a ruler, lay the real parts on. Outline cuts are drawn along the cutter's"
                        + " middle, bores with their diameter at the foil; dashed is the blank.");
        for (Side side : x.job().sides()) {
            html.element("p", "Side " + side.number() + ": " + HtmlReport.looking(x, side));
            html.raw("<figure class=\"true\">" + BenchDrawings.template(x, side.number()) + "</figure>\n");
        }
    }

    /** Whether the far copper face of the blank is the one that parts stand on while this side lies up. */
    static boolean solderSide(Side side) {
        return side.face() == Face.BOTTOM;
    }
}

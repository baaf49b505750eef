package foilproof.report;

import foilproof.bench.Face;
import foilproof.bench.Join;
import foilproof.bench.KeepOut;
import foilproof.bench.Side;
import foilproof.bench.Tool;
import foilproof.copper.NarrowGap;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetPlace;
import foilproof.electrical.NetVerdict;
import foilproof.findings.CopperFacts;
import foilproof.findings.CopperPlaces;
import foilproof.findings.Examination;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;

/** Sections of the report that need the examined job itself: set-up map, slivers, cards for the bench, template. */
final class BenchSections {
    /** Probe pairs on the continuity card: at two a minute six minutes of work. */
    private static final int PAIRS = 12;

    private static final int MOST_SLIVERS = 60;

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
        html.element("h2", "Tool changes in time order");
        html.raw("<ol>\n");
        int before = -1;
        for (ResultDocument.RunFacts run : result.runs()) {
            String turn = run.side() == before ? "" : "Lay side " + run.side() + " up. ";
            before = run.side();
            double minutes = (run.toS() - run.fromS()) / 60;
            html.element(
                            "li",
                            HumanText.moment(run.fromS()) + " min:s: " + turn + "Fit " + run.tool()
                                    + ", touch it off, run from " + run.program() + " line " + run.line() + ": "
                                    + Decimals.fixed(minutes, 1) + " minutes.")
                    .raw("\n");
        }
        html.raw("</ol>\n");
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
                                                    : ", down to " + HumanText.signedLength(tool.deepestMm())
                                                            + " from the foil top.")));
        }
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

    /** A pair of places to put the probes of a meter on. */
    private record Pair(String a, String b, boolean joined, double rank, String why) {}

    /** The pairs that most likely tell a bad board, in the order to walk them. */
    void continuityCard() {
        List<Pair> pairs = pairs();
        html.element("h2", "Continuity card");
        if (pairs.isEmpty()) {
            html.element("p", "No probe pairs: no netlist or layer image names nets.");
            return;
        }
        html.element(
                "p class=\"small\"",
                "The pairs most likely to tell a bad board, worst first, two a minute. The order ranks the narrowest gaps and"
                        + " copper against each other: the odds are relative, and pairs left out can be bad too.");
        html.head("#", "Probe", "Probe", "Must", "Because", "Found");
        int number = 0;
        for (Pair pair : pairs) {
            html.row("#" + ++number, pair.a(), pair.b(), pair.joined() ? "buzz" : "not buzz", pair.why(), "");
        }
        html.endTable();
    }

    private List<Pair> pairs() {
        List<Pair> out = new ArrayList<>();
        List<IntendedNets.Net> nets = new ArrayList<>();
        for (IntendedNets.Net net : x.design().nets().nets()) {
            if (net.named() && !net.places().isEmpty()) {
                nets.add(net);
            }
        }
        for (int i = 0; i < nets.size(); i++) {
            for (int j = i + 1; j < nets.size(); j++) {
                apart(nets.get(i), nets.get(j), out);
            }
            whole(nets.get(i), out);
        }
        out.sort(Comparator.comparingDouble(Pair::rank).thenComparing(Pair::a).thenComparing(Pair::b));
        return out.subList(0, Math.min(PAIRS, out.size()));
    }

    private void apart(IntendedNets.Net a, IntendedNets.Net b, List<Pair> out) {
        NetPlace bestA = a.places().get(0);
        NetPlace bestB = b.places().get(0);
        double best = Double.POSITIVE_INFINITY;
        for (NetPlace p : a.places()) {
            for (NetPlace q : b.places()) {
                double d = StrictMath.hypot(p.xMm() - q.xMm(), p.yMm() - q.yMm());
                if (d < best) {
                    best = d;
                    bestA = p;
                    bestB = q;
                }
            }
        }
        Double gap = gapMm(bestA, bestB);
        double between = best - (least(bestA) + least(bestB)) / 2;
        double told = gap != null ? gap : Math.max(0.05, between);
        out.add(new Pair(
                a.name() + " " + bestA.label(),
                b.name() + " " + bestB.label(),
                false,
                told,
                gap != null
                        ? "gap of " + HumanText.length(gap) + " at the foil bottom"
                        : "their lands lie " + HumanText.length(Math.max(0, between)) + " apart"));
    }

    private static double least(NetPlace p) {
        return Math.min(p.widthMm(), p.heightMm());
    }

    /** The narrowest gap told between the copper of two places, or null. */
    private @Nullable Double gapMm(NetPlace a, NetPlace b) {
        double[] p = x.design().onBlank(a);
        double[] q = x.design().onBlank(b);
        if (p == null || q == null || a.face() != b.face()) {
            return null;
        }
        int side = x.design().sideOf(a.face());
        if (side < 1 || side > x.copper().size()) {
            return null;
        }
        CopperFacts copper = x.copper(side);
        int pieceA = piece(copper, p, least(a));
        int pieceB = piece(copper, q, least(b));
        for (NarrowGap gap : copper.gaps()) {
            if (gap.pieceA() == Math.min(pieceA, pieceB) && gap.pieceB() == Math.max(pieceA, pieceB)) {
                return gap.bottomMm();
            }
        }
        return null;
    }

    /** The piece of copper at a place, bored or not. */
    private static int piece(CopperFacts copper, double[] at, double widthMm) {
        int piece = copper.map().pieceAt(at[0], at[1]);
        for (int k = 0; k < 4 && piece < 0; k++) {
            double d = 0.42 * widthMm;
            piece = copper.map()
                    .pieceAt(at[0] + (k == 0 ? d : k == 1 ? -d : 0), at[1] + (k == 2 ? d : k == 3 ? -d : 0));
        }
        return piece;
    }

    private void whole(IntendedNets.Net net, List<Pair> out) {
        NetPlace bestA = null;
        NetPlace bestB = null;
        double far = 0;
        for (NetPlace p : net.places()) {
            for (NetPlace q : net.places()) {
                double d = StrictMath.hypot(p.xMm() - q.xMm(), p.yMm() - q.yMm());
                if (d > far) {
                    far = d;
                    bestA = p;
                    bestB = q;
                }
            }
        }
        if (bestA == null || bestB == null) {
            return;
        }
        Double narrowest = null;
        for (ResultDocument.NetFacts facts : result.nets()) {
            narrowest = facts.name().equals(net.name()) ? facts.narrowestMm() : narrowest;
        }
        out.add(new Pair(
                net.name() + " " + bestA.label(),
                net.name() + " " + bestB.label(),
                true,
                narrowest == null ? 1 : narrowest,
                narrowest == null
                        ? "the two places farthest apart on this net"
                        : "narrowest copper " + HumanText.length(narrowest)));
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

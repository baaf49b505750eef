package foilproof.report;

import foilproof.copper.CopperMap;
import foilproof.copper.NarrowGap;
import foilproof.copper.SideField;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetPlace;
import foilproof.findings.Examination;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The probe pairs that most likely tell a bad board, in the order to walk a meter. A pair ranks by how little of the
 * set-up's spread of Z error it takes until its nets are joined, or its net falls apart: the copper is looked at at growing
 * parts of the spread, the same error for all tool runs. Among pairs that the spread does not reach, the narrowest gap or
 * copper comes first. The odds are relative: what else can go wrong is not in them.
 */
final class ContinuityCard {
    /** At two a minute six minutes of work. */
    private static final int PAIRS = 12;

    /** Parts of the spread at which the copper is looked at; beyond 1 the spread would have to be wrong. */
    private static final double[] PARTS = {0, 0.5, 1, 1.5, 2, 3};

    private static final double NEVER = 9;

    private final Examination x;
    private final ResultDocument result;

    /** Per side and level, the copper under that error is asked once for all places; then it may go. */
    private final List<int[][]> pieces = new ArrayList<>();

    private final List<double[]> levels = new ArrayList<>();
    private final List<NetPlace> places = new ArrayList<>();
    private final IdentityHashMap<NetPlace, Integer> index = new IdentityHashMap<>();

    ContinuityCard(Examination x, ResultDocument result) {
        this.x = x;
        this.result = result;
    }

    /** A pair: its rank is the part of the spread at which it fails, then a width, mm. */
    private record Pair(String a, String b, boolean joined, double part, double widthMm, String why) {}

    /** When a pair fails: the part of the spread and the error, mm; NEVER where it does not. */
    private record Fails(double part, double errorMm) {
        static final Fails NOT = new Fails(NEVER, 0);
    }

    void write(Html html) {
        List<Pair> pairs = pairs();
        html.element("h2", "Continuity card");
        if (pairs.isEmpty()) {
            html.element("p", "No probe pairs: no netlist or layer image names nets.");
            return;
        }
        html.element(
                "p class=\"small\"",
                "The pairs most likely to tell a bad board, worst first, two a minute. A pair stands the higher the less of"
                        + " your spread of Z error makes it fail; then come the narrowest gaps and copper. The odds are relative,"
                        + " and pairs left out can be bad too.");
        html.head("#", "Probe", "Probe", "Must", "Because", "Found");
        int number = 0;
        for (Pair pair : pairs) {
            html.row("#" + ++number, pair.a(), pair.b(), pair.joined() ? "buzz" : "not buzz", pair.why(), "");
        }
        html.endTable();
    }

    private List<Pair> pairs() {
        List<IntendedNets.Net> nets = new ArrayList<>();
        for (IntendedNets.Net net : x.design().nets().nets()) {
            if (net.named() && !net.places().isEmpty()) {
                nets.add(net);
                for (NetPlace place : net.places()) {
                    index.put(place, places.size());
                    places.add(place);
                }
            }
        }
        for (int side = 1; side <= x.copper().size(); side++) {
            look(side);
        }
        List<Pair> out = new ArrayList<>();
        for (int i = 0; i < nets.size(); i++) {
            for (int j = i + 1; j < nets.size(); j++) {
                out.add(apart(nets.get(i), nets.get(j)));
            }
            Pair whole = whole(nets.get(i));
            if (whole != null) {
                out.add(whole);
            }
        }
        out.sort(Comparator.comparingDouble(Pair::part)
                .thenComparingDouble(Pair::widthMm)
                .thenComparing(Pair::a)
                .thenComparing(Pair::b));
        return out.subList(0, Math.min(PAIRS, out.size()));
    }

    /** Which piece each place of a side lies on, at every part of the spread. */
    private void look(int side) {
        double low = 0;
        double high = 0;
        for (ResultDocument.ZWindow w : result.zWindows()) {
            double[] spread = w.spreadMm();
            if (w.side() == side && spread != null) {
                low = Math.min(low, spread[0]);
                high = Math.max(high, spread[1]);
            }
        }
        double[] at = new double[2 * PARTS.length - 1];
        for (int k = 1; k < PARTS.length; k++) {
            at[2 * k - 1] = PARTS[k] * low;
            at[2 * k] = PARTS[k] * high;
        }
        SideField field = new SideField(x.board(), side);
        int[][] on = new int[at.length][];
        for (int k = 0; k < at.length; k++) {
            CopperMap map = k == 0 ? x.copper(side).map() : CopperMap.of(field, at[k]);
            on[k] = new int[places.size()];
            for (int p = 0; p < places.size(); p++) {
                NetPlace place = places.get(p);
                double[] xy = x.design().onBlank(place);
                on[k][p] = xy != null && x.design().sideOf(place.face()) == side ? piece(map, xy, least(place)) : -1;
            }
        }
        pieces.add(on);
        levels.add(at);
    }

    private static double part(int level) {
        return PARTS[(level + 1) / 2];
    }

    /** When two places of one face become joined, or fall apart. */
    private Fails fails(NetPlace a, NetPlace b, boolean joined) {
        int side = a.face() == b.face() ? x.design().sideOf(a.face()) : 0;
        if (side < 1 || side > pieces.size()) {
            return Fails.NOT;
        }
        int p = indexOf(a);
        int q = indexOf(b);
        int[][] on = pieces.get(side - 1);
        if (on[0][p] < 0 || on[0][q] < 0 || joined && on[0][p] != on[0][q]) {
            // Bored away, or joined on another way: the copper of this face does not tell.
            return Fails.NOT;
        }
        for (int k = 0; k < on.length; k++) {
            boolean same = on[k][p] >= 0 && on[k][p] == on[k][q];
            if (same != joined) {
                return new Fails(part(k), levels.get(side - 1)[k]);
            }
        }
        return Fails.NOT;
    }

    private int indexOf(NetPlace place) {
        return index.getOrDefault(place, 0);
    }

    private static String words(Fails f, boolean joined) {
        String what = joined ? "falls apart" : "are one";
        return f.part() == 0
                ? what + " as the job is set"
                : what + " where Z lies " + HumanText.length(Math.abs(f.errorMm()))
                        + (f.errorMm() > 0 ? " deeper" : " higher") + ", " + Decimals.plain(f.part(), 1)
                        + " times your spread";
    }

    private Pair apart(IntendedNets.Net a, IntendedNets.Net b) {
        NetPlace bestA = a.places().get(0);
        NetPlace bestB = b.places().get(0);
        double best = Double.POSITIVE_INFINITY;
        Fails worst = Fails.NOT;
        for (NetPlace p : a.places()) {
            for (NetPlace q : b.places()) {
                double d = StrictMath.hypot(p.xMm() - q.xMm(), p.yMm() - q.yMm());
                Fails f = fails(p, q, false);
                // Pins that both stand in the same leftover foil are judged by the nets, not by this face's copper.
                f = f.part() == 0 && !shorted(a, b) ? Fails.NOT : f;
                if (f.part() < worst.part() || f.part() == worst.part() && d < best) {
                    worst = f;
                    best = d;
                    bestA = p;
                    bestB = q;
                }
            }
        }
        Double gap = gapMm(bestA, bestB);
        double between = Math.max(0, best - (least(bestA) + least(bestB)) / 2);
        String told = gap != null
                ? "gap of " + HumanText.length(gap) + " at the foil bottom"
                : "their lands lie " + HumanText.length(between) + " apart";
        return new Pair(
                a.name() + " " + bestA.label(),
                b.name() + " " + bestB.label(),
                false,
                worst.part(),
                gap != null ? gap : Math.max(0.05, between),
                worst.part() < NEVER ? words(worst, false) + "; " + told : told);
    }

    private boolean shorted(IntendedNets.Net a, IntendedNets.Net b) {
        for (ResultDocument.NetFacts facts : result.nets()) {
            if (facts.name().equals(a.name()) && facts.shortedWith().contains(b.name())) {
                return true;
            }
        }
        return false;
    }

    private static double least(NetPlace p) {
        return Math.min(p.widthMm(), p.heightMm());
    }

    /** The narrowest gap told between the copper of two places, or null. */
    private @Nullable Double gapMm(NetPlace a, NetPlace b) {
        int side = a.face() == b.face() ? x.design().sideOf(a.face()) : 0;
        if (side < 1 || side > pieces.size()) {
            return null;
        }
        int pieceA = pieces.get(side - 1)[0][indexOf(a)];
        int pieceB = pieces.get(side - 1)[0][indexOf(b)];
        for (NarrowGap gap : x.copper(side).gaps()) {
            if (gap.pieceA() == Math.min(pieceA, pieceB) && gap.pieceB() == Math.max(pieceA, pieceB)) {
                return gap.bottomMm();
            }
        }
        return null;
    }

    /** The piece of copper at a place, bored or not. */
    private static int piece(CopperMap map, double[] at, double widthMm) {
        int piece = map.pieceAt(at[0], at[1]);
        for (int k = 0; k < 4 && piece < 0; k++) {
            double d = 0.42 * widthMm;
            piece = map.pieceAt(at[0] + (k == 0 ? d : k == 1 ? -d : 0), at[1] + (k == 2 ? d : k == 3 ? -d : 0));
        }
        return piece;
    }

    private @Nullable Pair whole(IntendedNets.Net net) {
        NetPlace bestA = null;
        NetPlace bestB = null;
        double far = 0;
        Fails worst = Fails.NOT;
        for (NetPlace p : net.places()) {
            for (NetPlace q : net.places()) {
                double d = StrictMath.hypot(p.xMm() - q.xMm(), p.yMm() - q.yMm());
                Fails f = d > 0 ? fails(p, q, true) : Fails.NOT;
                if (f.part() < worst.part() || f.part() == worst.part() && d > far) {
                    worst = f;
                    far = d;
                    bestA = p;
                    bestB = q;
                }
            }
        }
        if (bestA == null || bestB == null) {
            return null;
        }
        Double narrowest = null;
        for (ResultDocument.NetFacts facts : result.nets()) {
            narrowest = facts.name().equals(net.name()) ? facts.narrowestMm() : narrowest;
        }
        String told = narrowest == null
                ? "the two places farthest apart on this net"
                : "narrowest copper " + HumanText.length(narrowest);
        return new Pair(
                net.name() + " " + bestA.label(),
                net.name() + " " + bestB.label(),
                true,
                worst.part(),
                narrowest == null ? 1 : narrowest,
                worst.part() < NEVER ? words(worst, true) + "; " + told : told);
    }
}

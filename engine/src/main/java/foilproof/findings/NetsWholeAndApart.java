package foilproof.findings;

import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import foilproof.electrical.NetPlace;
import foilproof.electrical.NetVerdict;
import foilproof.source.Diagnostic;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Nets that share copper (J1) and nets that fell apart (J2); hand-made joins count as joined (J8). */
final class NetsWholeAndApart implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.SHORT, Kinds.OPEN);
    }

    @Override
    public List<String> needsRows() {
        return List.of("C3", "E1", "E2", "J1", "J2", "J8");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        DesignFacts design = x.design();
        NetVerdict verdict = design.verdict();
        for (Diagnostic warning : design.read().warnings()) {
            out.notChecked(warning.span() + ": " + warning.message(), "the reader does not know what it means");
        }
        if (verdict == null) {
            out.notChecked("opens and shorts", "no netlist or layer image is given");
            return;
        }
        for (NetVerdict.Short s : verdict.shorts()) {
            out.add(shorted(x, design, s));
        }
        List<Finding> vias = new ArrayList<>();
        for (NetVerdict.Open o : verdict.opens()) {
            if (o.onlyVias()) {
                vias.add(open(x, design, o));
            } else {
                out.add(open(x, design, o));
            }
        }
        if (!vias.isEmpty()) {
            out.add(vias.get(0).withConsequences(vias.subList(1, vias.size())));
        }
        if (!verdict.handJoins().isEmpty()) {
            out.notChecked(
                    verdict.handJoins().size() + " joins made by hand (part pins through the board, wires in vias)",
                    "they are taken as soldered; buzz them out");
        }
    }

    private static Finding shorted(Examination x, DesignFacts design, NetVerdict.Short s) {
        double[] a = design.onBlank(s.placeA());
        double[] b = design.onBlank(s.placeB());
        Finding.Builder f = Finding.of(Kinds.SHORT, Severity.STOP, Certainty.GEOMETRY)
                .says("Nets " + s.netA() + " and " + s.netB() + " are on one piece of copper: "
                        + s.placeA().label() + " is joined to " + s.placeB().label() + ".")
                .doThis(
                        "Close the groove between them (lead-over at its end, another pass, a narrower cutter), or check"
                                + " that every isolation pass is in the program.");
        place(x, f, a != null ? a : b, true);
        return f.build();
    }

    private static Finding open(Examination x, DesignFacts design, NetVerdict.Open o) {
        boolean vias = o.onlyVias();
        NetPlace first = !o.missing().isEmpty()
                ? o.missing().get(0)
                : o.groups().size() > 1 && !o.groups().get(1).isEmpty()
                        ? o.groups().get(1).get(0)
                        : o.groups().get(0).get(0);
        String what = !o.missing().isEmpty()
                ? o.missing().size() + " of its places have no copper (" + labels(o.missing()) + ")"
                : "it is in " + o.groups().size() + " pieces; "
                        + labels(o.groups().get(o.groups().size() - 1)) + " hang apart from the rest";
        Finding.Builder f = Finding.of(Kinds.OPEN, vias ? Severity.WATCH : Severity.STOP, Certainty.GEOMETRY)
                .says("Net " + o.net() + " is not whole: " + what + "."
                        + (vias ? " Wires in its vias would join it; no [[join]] names them." : ""))
                .doThis(
                        vias
                                ? "Solder a wire into each of its vias and name them as [[join]] in the job."
                                : "Find the cut through this net and move or drop it.");
        place(x, f, design.onBlank(first), false);
        return f.build();
    }

    private static String labels(List<NetPlace> places) {
        String text = places.stream().limit(3).map(NetPlace::label).collect(Collectors.joining(", "));
        return places.size() > 3 ? text + " and " + (places.size() - 3) + " more" : text;
    }

    /** The place where the window says that the nets join or part, where it does, else that of the pad. */
    private static void place(Examination x, Finding.Builder f, double @Nullable [] pad, boolean joined) {
        if (pad == null) {
            return;
        }
        int side = (int) pad[0];
        f.side(side).at(pad[1], pad[2]);
        for (ZWindow window : x.copper(side).windows().values()) {
            ZLimit limit = joined ? window.limitedFrom() : window.limitedTo();
            if (limit != null
                    && limit.kind() == (joined ? ZLimit.Kind.NETS_JOINED : ZLimit.Kind.NET_OPEN)
                    && !Double.isNaN(limit.xMm())) {
                f.at(limit.xMm(), limit.yMm());
                pad = new double[] {side, limit.xMm(), limit.yMm()};
            }
        }
        x.copper(side).nearestLine(x, f, pad[1], pad[2]);
    }
}

package foilproof.findings;

import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import foilproof.electrical.NetPlace;
import foilproof.electrical.NetVerdict;
import foilproof.source.Diagnostic;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** Nets that share copper (J1) and nets that fell apart (J2); hand-made joins count as joined (J8). */
final class NetsWholeAndApart implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.SHORT, Kinds.OPEN, Kinds.HAND_JOINS);
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
            out.notChecked("whether " + warning.span() + " is read as it was meant", warning.message());
        }
        if (verdict == null) {
            out.notChecked(
                    "opens and shorts",
                    design.read().layers().isEmpty()
                            ? "no netlist or layer image is given"
                            : "a layer image ends without M02: what it joins is not known where it was cut short");
            return;
        }
        // Bores and an outline alone part no nets: their copper is milled by programs that are not in this job.
        boolean judged = verdict.shorts().stream().allMatch(NetVerdict.Short::byHand)
                || x.copperWork().any();
        if (!judged) {
            out.notChecked("whether nets are apart", "no program of this job isolates or clears copper");
        }
        List<NetVerdict.Short> joined = judged ? verdict.shorts() : List.of();
        List<Finding> shorts = new ArrayList<>();
        List<Finding> shallow = new ArrayList<>();
        Set<String> told = new HashSet<>();
        boolean byCopper = joined.stream().anyMatch(s -> !s.byHand());
        for (Bridges.Told bridge : byCopper ? Bridges.of(x) : List.<Bridges.Told>of()) {
            (bridge.shallow() ? shallow : shorts).add(bridge.finding());
            told.add(bridge.netA());
            told.add(bridge.netB());
        }
        for (NetVerdict.Short s : joined) {
            if (s.byHand()) {
                shorts.add(joinedByHand(design, s));
            } else if (!told.contains(s.netA()) || !told.contains(s.netB())) {
                shorts.add(shorted(x, design, s));
            }
        }
        List<Finding> vias = new ArrayList<>();
        for (NetVerdict.Open o : verdict.opens()) {
            Finding open = open(x, design, o);
            int same = o.onlyVias() ? -1 : sameFault(shorts, open);
            if (o.onlyVias()) {
                vias.add(open);
            } else if (same >= 0) {
                shorts.set(same, shorts.get(same).withConsequences(List.of(open)));
            } else {
                out.add(open);
            }
        }
        shorts.forEach(out::add);
        if (!shallow.isEmpty()) {
            // Grooves that are too shallow join many pairs of nets for one reason.
            out.add(shallow.get(0).withConsequences(shallow.subList(1, shallow.size())));
        }
        if (!vias.isEmpty()) {
            out.add(vias.get(0).withConsequences(vias.subList(1, vias.size())));
        }
        handJoins(verdict, out);
    }

    /** Joins that hands make, as one note (J8): buzz them out. */
    private static void handJoins(NetVerdict verdict, FindingCollector out) {
        if (verdict.handJoins().isEmpty()) {
            return;
        }
        String list = verdict.handJoins().stream()
                .limit(12)
                .map(j -> j.kind()
                        + (j.net().isEmpty() ? "" : " of " + j.net())
                        + String.format(Locale.ROOT, " at (%.2f, %.2f)", j.xMm(), j.yMm()))
                .distinct()
                .collect(Collectors.joining("; "));
        int count = verdict.handJoins().size();
        out.add(Finding.of(Kinds.HAND_JOINS, Severity.NOTE, Certainty.GEOMETRY)
                .measured(Measured.exact("joins made by hand", count, "joins"))
                .says("Whole nets rest on " + Words.count(count, "join", "joins")
                        + " made by hand, taken as soldered (design coordinates, mm): " + list
                        + (count > 12 ? " and more." : ".")
                        + (verdict.handJoins().stream().anyMatch(j -> j.kind().equals("pin or via"))
                                ? " No file tells which of them are pins of parts and which are vias that need a wire."
                                : ""))
                .doThis("Solder them on both faces and buzz them out.")
                .build());
    }

    /** The short that the same fault made: its bridge lies within a millimetre of the cut. */
    private static int sameFault(List<Finding> shorts, Finding open) {
        for (int k = 0; k < shorts.size(); k++) {
            double[] a = shorts.get(k).atMm();
            double[] b = open.atMm();
            if (a != null
                    && b != null
                    && Objects.equals(shorts.get(k).side(), open.side())
                    && StrictMath.hypot(a[0] - b[0], a[1] - b[1]) <= 1) {
                return k;
            }
        }
        return -1;
    }

    /** Copper keeps two nets apart, and a join of the job's own joins them. */
    private static Finding joinedByHand(DesignFacts design, NetVerdict.Short s) {
        NetVerdict.HandJoin join = s.join();
        String joins = join == null
                ? "joins of the job and pins through both faces lead from "
                        + s.placeA().label() + " to " + s.placeB().label()
                : String.format(
                        Locale.ROOT,
                        "the [[join]] (%s) at (%.2f, %.2f) mm, design coordinates, goes from one to the other",
                        join.kind(),
                        join.xMm(),
                        join.yMm());
        Finding.Builder f = Finding.of(Kinds.SHORT, Severity.STOP, Certainty.GEOMETRY)
                .says("Nets " + s.netA() + " and " + s.netB() + " are joined by hand, not by copper: " + joins
                        + ". The milled copper keeps them apart.")
                .doThis("Correct the places or the faces of this [[join]] in the job, or leave the wire out.");
        double[] at = design.onBlank(join == null ? s.placeA() : s.placeA().movedTo(join.xMm(), join.yMm()));
        if (at != null) {
            f.side((int) at[0]).at(at[1], at[2]);
        }
        return f.build();
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
        if (o.onlyVias()) {
            return openVias(x, design, o);
        }
        NetPlace first = !o.missing().isEmpty()
                ? o.missing().get(0)
                : o.groups().size() > 1
                        ? o.groups().get(1).get(0)
                        : o.groups().get(0).get(0);
        String what = !o.missing().isEmpty()
                ? labels(o.missing()) + (o.missing().size() == 1 ? " has" : " have") + " no copper left"
                : "it is in " + o.groups().size() + " pieces: " + groups(o);
        Finding.Builder f = Finding.of(Kinds.OPEN, Severity.STOP, Certainty.GEOMETRY);
        Cuts.Cut cut = o.missing().isEmpty() ? Cuts.between(x, o) : null;
        int segment = -1;
        if (cut != null) {
            f.side(cut.side())
                    .at(cut.xMm(), cut.yMm())
                    .atMost(Measured.mm("copper gone along the net", cut.lengthMm(), cut.errorMm()), 0);
            segment = Cuts.segmentAt(x, cut.side(), cut.xMm(), cut.yMm());
            if (segment >= 0) {
                x.at(f, segment).side(cut.side()).at(cut.xMm(), cut.yMm());
            }
        } else {
            place(x, f, design.onBlank(first), false);
        }
        String where = cut == null
                ? "."
                : ". "
                        + (segment < 0
                                ? "It is cut"
                                : "Line " + x.plan().segments().line(segment) + " cuts it") + " at "
                        + Words.place(cut.xMm(), cut.yMm()) + ": "
                        + (cut.lengthMm() <= cut.errorMm()
                                ? "less than " + Words.mm(cut.lengthMm() + cut.errorMm())
                                : Words.mm(cut.lengthMm()))
                        + " of wanted copper are gone there.";
        return f.says("Net " + o.net() + " is not whole: " + what + where)
                .doThis(
                        segment < 0 || cut == null
                                ? "Find the cut through this net and move or drop it, or bridge it with a wire."
                                : "Raise line " + x.plan().segments().line(segment) + " out of the foil for about "
                                        + Words.number(cut.lengthMm() + 0.2, 1) + " mm round "
                                        + Words.place(cut.xMm(), cut.yMm())
                                        + ", or move it off the net; on a board already cut, a wire across the gap joins"
                                        + " it.")
                .build();
    }

    private static Finding openVias(Examination x, DesignFacts design, NetVerdict.Open o) {
        NetPlace via = o.viasToJoin().get(0);
        String vias = o.viasToJoin().stream()
                .limit(6)
                .map(v -> String.format(Locale.ROOT, "(%.2f, %.2f)", v.xMm(), v.yMm()))
                .distinct()
                .collect(Collectors.joining(", "));
        Finding.Builder f = Finding.of(Kinds.OPEN, Severity.WATCH, Certainty.GEOMETRY)
                .says("Net " + o.net() + " is in " + o.groups().size() + " pieces until its via"
                        + (o.viasToJoin().size() == 1 ? "" : "s") + " at " + vias
                        + (o.viasToJoin().size() > 6 ? " and more" : "")
                        + " (design coordinates, mm) are joined through the board: " + groups(o)
                        + ". No [[join]] names them.")
                .doThis("Solder a wire into each of these vias on both faces and name them as [[join]] in the job.");
        place(x, f, design.onBlank(via), false);
        return f.build();
    }

    private static String groups(NetVerdict.Open o) {
        return o.groups().stream()
                .limit(4)
                .map(NetsWholeAndApart::labels)
                .collect(Collectors.joining(" | ", "", o.groups().size() > 4 ? " | ..." : ""));
    }

    private static String labels(List<NetPlace> places) {
        List<String> names = places.stream()
                .map(p -> p.pin() != null ? p.pin() : (p.via() ? "via " : "pad ") + p.label())
                .distinct()
                .toList();
        String text = String.join(", ", names.subList(0, Math.min(3, names.size())));
        return names.size() > 3 ? text + " and " + (names.size() - 3) + " more" : text;
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

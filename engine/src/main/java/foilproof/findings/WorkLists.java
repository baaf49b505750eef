package foilproof.findings;

import foilproof.bench.Face;
import foilproof.design.DrillFile;
import foilproof.design.LayerImage;
import foilproof.design.Pad;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * What hands must do or look at, told once each: vias that need a wire (G12), pins to be soldered on the component side
 * (G13), that mirrored copper cannot be known without design files (B10), bores over spoil board that is cut already
 * (I4).
 */
final class WorkLists implements Check {
    /** Grid on which the floor under a hole is looked at, mm. */
    private static final double SPOIL_STEP_MM = 0.05;

    private static final int MOST_NAMED = 12;
    /** Copper this far outside a land's edge is a trace that leaves it, mm. */
    private static final double BESIDE_MM = 0.15;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.MIRRORED, Kinds.VIA_LIST, Kinds.SOLDER_ACCESS, Kinds.SPOIL_BOARD_CUT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B10", "G12", "G13", "I4");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        mirrorUnknown(x, out);
        if (x.job().blank().bothSides()) {
            vias(x, out);
            pinsOnTop(x, out);
        }
        spoilBoard(x, out);
    }

    private static void mirrorUnknown(Examination x, FindingCollector out) {
        boolean copper = x.copper().stream().anyMatch(c -> !c.windows().isEmpty());
        if (copper && x.design().read().layers().isEmpty()) {
            out.add(Finding.of(Kinds.MIRRORED, Severity.NOTE, Certainty.GEOMETRY)
                    .says("No layer image is given: whether the copper is milled mirrored cannot be known. Read"
                            + " one engraved word in the picture of each side.")
                    .doThis(
                            "The word must read the right way round as the finished copper is looked at; or give [design] the"
                                    + " layer images.")
                    .build());
        }
    }

    private static void vias(Examination x, FindingCollector out) {
        DrillFile drill = x.design().read().drill();
        List<double[]> places = new ArrayList<>();
        Map<Double, Integer> bySize = new TreeMap<>();
        if (drill == null) {
            return;
        }
        for (DrillFile.Hole hole : drill.holes()) {
            if (via(x, hole)) {
                places.add(new double[] {hole.xMm(), hole.yMm()});
                bySize.merge(hole.diameterMm(), 1, Integer::sum);
            }
        }
        if (places.isEmpty()) {
            return;
        }
        StringBuilder sizes = new StringBuilder();
        bySize.forEach((size, count) -> sizes.append(sizes.isEmpty() ? "" : ", ")
                .append(count)
                .append(" of ")
                .append(Words.number(size, 2))
                .append(" mm (wire up to ")
                .append(Words.number(Math.max(0.1, size - 0.15), 2))
                .append(" mm)"));
        out.add(Finding.of(Kinds.VIA_LIST, Severity.NOTE, Certainty.GEOMETRY)
                .measured(Measured.exact("vias that need a wire", places.size(), "vias"))
                .says(places.size() + (places.size() == 1 ? " via needs" : " vias need")
                        + " a wire soldered on both faces, milled holes are not plated: " + sizes + "; at "
                        + named(places) + " (design coordinates).")
                .doThis("Solder a wire into each, cut it flush under part bodies, buzz it out; name them as [[join]].")
                .build());
    }

    /** Whether a hole is a via: the drill file or a layer image says so, or copper on both faces and no part's pin. */
    private static boolean via(Examination x, DrillFile.Hole hole) {
        String function = hole.tool().function();
        if (function != null) {
            return function.contains("ViaDrill");
        }
        boolean both = true;
        boolean part = false;
        boolean said = false;
        for (Face face : Face.values()) {
            Pad pad = pad(x.design().read().layers().get(face), hole);
            both &= pad != null;
            said |= pad != null && RegistrationBudget.isVia(pad);
            part |= pad != null
                    && (pad.pinName() != null
                            || "ComponentPad".equals(pad.attributes().function()));
        }
        return said || both && !part && named(x);
    }

    /** Whether the layer images tell pins from vias at all. */
    private static boolean named(Examination x) {
        return x.design().read().layers().values().stream()
                .anyMatch(l -> l.pads().stream().anyMatch(p -> p.pinName() != null));
    }

    private static @Nullable Pad pad(@Nullable LayerImage layer, DrillFile.Hole hole) {
        if (layer != null) {
            for (Pad pad : layer.padsNear(hole.xMm(), hole.yMm(), 0.05)) {
                if (StrictMath.hypot(pad.xMm() - hole.xMm(), pad.yMm() - hole.yMm()) < 0.05) {
                    return pad;
                }
            }
        }
        return null;
    }

    private static String named(List<double[]> places) {
        StringBuilder t = new StringBuilder();
        for (int i = 0; i < Math.min(MOST_NAMED, places.size()); i++) {
            t.append(i == 0 ? "" : ", ")
                    .append('(')
                    .append(Words.number(places.get(i)[0], 2))
                    .append(", ")
                    .append(Words.number(places.get(i)[1], 2))
                    .append(')');
        }
        return places.size() > MOST_NAMED ? t + " and " + (places.size() - MOST_NAMED) + " more" : t + " mm";
    }

    /** Through pins of parts whose land on the component side has a trace: can it be soldered there? */
    private static void pinsOnTop(Examination x, FindingCollector out) {
        LayerImage top = x.design().read().layers().get(Face.TOP);
        DrillFile drill = x.design().read().drill();
        if (top == null || drill == null) {
            return;
        }
        List<double[]> places = new ArrayList<>();
        for (DrillFile.Hole hole : drill.holes()) {
            Pad pad = pad(top, hole);
            if (pad != null && pad.pinName() != null && traceLeaves(top, pad)) {
                places.add(new double[] {hole.xMm(), hole.yMm()});
            }
        }
        if (!places.isEmpty()) {
            out.add(Finding.of(Kinds.SOLDER_ACCESS, Severity.NOTE, Certainty.SET_UP)
                    .measured(Measured.exact("pins with traces on the component side", places.size(), "pins"))
                    .says("Question: can the iron reach "
                            + (places.size() == 1 ? "this through pin" : "these " + places.size() + " through pins")
                            + " on the component side, where traces begin? A connector's body or a socket covers the"
                            + " place: " + named(places) + " (design coordinates).")
                    .doThis(
                            "Where the part covers the land, put a via with a wire beside it, or lead the trace on the solder"
                                    + " side.")
                    .build());
        }
    }

    private static boolean traceLeaves(LayerImage top, Pad pad) {
        for (int k = 0; k < 72; k++) {
            double a = 2 * Math.PI * k / 72;
            double px = pad.xMm() + (pad.widthMm() / 2 + BESIDE_MM) * StrictMath.cos(a);
            double py = pad.yMm() + (pad.heightMm() / 2 + BESIDE_MM) * StrictMath.sin(a);
            boolean corner =
                    Math.abs(px - pad.xMm()) < pad.widthMm() / 2 && Math.abs(py - pad.yMm()) < pad.heightMm() / 2;
            if (!corner && top.covers(px, py)) {
                return true;
            }
        }
        return false;
    }

    /** Whether an earlier side cut into the spoil board anywhere under a hole: both stand as they lie on the table. */
    private static boolean overSpoilCut(Examination x, int side, Hole hole) {
        double radius = Rings.radiusMm(x, hole, true);
        double steps = Math.max(1, Math.ceil(radius / SPOIL_STEP_MM));
        for (double ring = 0; ring <= steps; ring++) {
            double r = radius * ring / steps;
            int around = (int) Math.max(1, Math.ceil(2 * Math.PI * r / SPOIL_STEP_MM));
            for (int k = 0; k < around; k++) {
                double a = 2 * Math.PI * k / around;
                double px = hole.xMm() + r * StrictMath.cos(a);
                double py = hole.yMm() + r * StrictMath.sin(a);
                if (x.side(side).exactCutMm(px, py) < -x.thicknessMm() - 0.05) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Holes of a later side over the place where an earlier side cut into the spoil board. */
    private static void spoilBoard(Examination x, FindingCollector out) {
        int count = 0;
        Hole first = null;
        for (Hole hole : x.holes()) {
            if (!hole.through()) {
                continue;
            }
            for (var earlier : x.job().sides()) {
                if (earlier.number() < hole.side() && overSpoilCut(x, earlier.number(), hole)) {
                    count++;
                    first = first == null ? hole : first;
                    break;
                }
            }
        }
        if (first != null) {
            out.add(x.at(Finding.of(Kinds.SPOIL_BOARD_CUT, Severity.NOTE, Certainty.GEOMETRY), first.segment())
                    .at(first.xMm(), first.yMm())
                    .measured(Measured.exact("holes over a cut spoil board", count, "holes"))
                    .says((count == 1 ? "A hole has" : count + " holes have")
                            + " no backing if the blank lies where it lay before: the side before cut into the spoil board"
                            + " there, and the hole breaks out ragged.")
                    .doThis("Shift the blank on the spoil board, turn the board, or skim it.")
                    .build());
        }
        boolean bores = x.holes().stream().anyMatch(Hole::through);
        if (bores) {
            out.notChecked("cuts of earlier jobs in the spoil board", "its surface is not part of the job");
        }
    }
}

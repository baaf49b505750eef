package foilproof.design;

import foilproof.source.InputException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Joins the strokes of a layer image end to end into closed rings. */
final class OutlineMaker {
    /** Ends closer than this are one corner, mm: above the rounding of coarse files (1e-4 inch), below any cut. */
    private static final double SAME_MM = 0.01;

    private record Stroke(PathEdge edge, int line) {}

    private final TextPlaces places;
    private final List<Stroke> strokes = new ArrayList<>();
    private final List<Outline.Ring> rings = new ArrayList<>();

    OutlineMaker(TextPlaces places) {
        this.places = places;
    }

    Outline make(LayerImage image) throws InputException {
        for (int i = 0; i < image.size(); i++) {
            if (image.isDark(i)) {
                collect(image, i);
            }
        }
        dropDoubled();
        chain();
        if (rings.isEmpty()) {
            throw places.fileError(
                    "outline-none",
                    "The outline file holds no closed contour.",
                    "The board's edge drawn as strokes that meet end to end.");
        }
        rings.sort(Comparator.comparingDouble(r -> -r.areaMm2()));
        return new Outline(rings);
    }

    private void collect(LayerImage image, int i) {
        Figure figure = image.figureOf(i);
        PlaneMap shift = PlaneMap.shift(image.dxOf(i), image.dyOf(i));
        int line = image.lineOf(i);
        switch (image.kindOf(i)) {
            case DRAW -> {
                if (figure instanceof CapsuleFigure c && (c.ex != 0 || c.ey != 0)) {
                    strokes.add(new Stroke(PathEdge.line(0, 0, c.ex, c.ey).mapped(shift), line));
                }
            }
            case ARC -> {
                if (figure instanceof ArcFigure a) {
                    strokes.add(new Stroke(a.stroke.mapped(shift), line));
                }
            }
            case REGION -> {
                if (figure instanceof PathFigure p) {
                    for (List<PathEdge> contour : p.contours) {
                        rings.add(new Outline.Ring(contour, line));
                    }
                }
            }
            default ->
                places.warnOnce(
                        "outline flash",
                        0,
                        1,
                        "outline-flash",
                        "Flashes in the outline file are not part of the outline.",
                        null);
        }
    }

    private static long key(double v, double w, int dx, int dy) {
        return (Math.round(v / SAME_MM) + dx) * 0x9E3779B97F4A7C15L + Math.round(w / SAME_MM) + dy;
    }

    private void dropDoubled() {
        Map<String, Integer> seen = new HashMap<>();
        List<Stroke> kept = new ArrayList<>();
        int doubled = 0;
        for (Stroke s : strokes) {
            String there = signature(s.edge());
            if (seen.containsKey(there) || seen.containsKey(signature(s.edge().reversed()))) {
                doubled++;
            } else {
                seen.put(there, 1);
                kept.add(s);
            }
        }
        if (doubled > 0) {
            places.warnFile("outline-doubled", doubled + " strokes of the outline are drawn twice; each is used once.");
        }
        strokes.clear();
        strokes.addAll(kept);
    }

    private static String signature(PathEdge e) {
        double bend = e.isArc() ? e.cxMm() * 3 + e.cyMm() * 7 + Math.signum(e.turnRad()) : 0;
        return Math.round(e.x0Mm() * 1000) + "," + Math.round(e.y0Mm() * 1000) + "," + Math.round(e.x1Mm() * 1000) + ","
                + Math.round(e.y1Mm() * 1000) + "," + Math.round(bend * 1000);
    }

    private void chain() {
        Map<Long, List<Integer>> ends = new HashMap<>();
        for (int i = 0; i < strokes.size(); i++) {
            PathEdge e = strokes.get(i).edge();
            ends.computeIfAbsent(key(e.x0Mm(), e.y0Mm(), 0, 0), k -> new ArrayList<>())
                    .add(2 * i);
            ends.computeIfAbsent(key(e.x1Mm(), e.y1Mm(), 0, 0), k -> new ArrayList<>())
                    .add(2 * i + 1);
        }
        boolean[] used = new boolean[strokes.size()];
        for (int i = 0; i < strokes.size(); i++) {
            if (used[i]) {
                continue;
            }
            used[i] = true;
            List<PathEdge> ring = new ArrayList<>();
            PathEdge first = strokes.get(i).edge();
            ring.add(first);
            PathEdge last = first;
            while (!closes(last, first)) {
                int next = nearest(ends, used, last.x1Mm(), last.y1Mm());
                if (next < 0) {
                    break;
                }
                used[next / 2] = true;
                PathEdge e = strokes.get(next / 2).edge();
                last = next % 2 == 0 ? e : e.reversed();
                ring.add(last);
            }
            if (closes(last, first) && (ring.size() > 1 || first.isArc())) {
                rings.add(new Outline.Ring(bridged(ring), strokes.get(i).line()));
            } else {
                double gap = StrictMath.hypot(last.x1Mm() - first.x0Mm(), last.y1Mm() - first.y0Mm());
                places.warnFile(
                        "outline-open",
                        String.format(
                                java.util.Locale.ROOT,
                                "A contour of the outline that begins on line %d at (%.3f, %.3f) mm is not closed: its ends are"
                                        + " %.3f mm apart. It is left out.",
                                strokes.get(i).line(),
                                first.x0Mm(),
                                first.y0Mm(),
                                gap));
            }
        }
    }

    private static boolean closes(PathEdge last, PathEdge first) {
        return StrictMath.hypot(last.x1Mm() - first.x0Mm(), last.y1Mm() - first.y0Mm()) <= SAME_MM;
    }

    private int nearest(Map<Long, List<Integer>> ends, boolean[] used, double x, double y) {
        int best = -1;
        double least = SAME_MM;
        for (int dx = -1; dx <= 1; dx++) {
            for (int dy = -1; dy <= 1; dy++) {
                for (int end : ends.getOrDefault(key(x, y, dx, dy), List.of())) {
                    PathEdge e = strokes.get(end / 2).edge();
                    double px = end % 2 == 0 ? e.x0Mm() : e.x1Mm();
                    double py = end % 2 == 0 ? e.y0Mm() : e.y1Mm();
                    double d = StrictMath.hypot(px - x, py - y);
                    if (!used[end / 2] && (d < least || d == least && best < 0)) {
                        least = d;
                        best = end;
                    }
                }
            }
        }
        return best;
    }

    /** Closes the gaps that rounding left between ends, so that the ring is one unbroken path. */
    private static List<PathEdge> bridged(List<PathEdge> ring) {
        List<PathEdge> out = new ArrayList<>();
        for (int i = 0; i < ring.size(); i++) {
            PathEdge e = ring.get(i);
            PathEdge next = ring.get((i + 1) % ring.size());
            out.add(e);
            if (e.x1Mm() != next.x0Mm() || e.y1Mm() != next.y0Mm()) {
                out.add(PathEdge.line(e.x1Mm(), e.y1Mm(), next.x0Mm(), next.y0Mm()));
            }
        }
        return out;
    }
}

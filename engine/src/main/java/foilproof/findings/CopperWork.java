package foilproof.findings;

import foilproof.bench.Work;
import foilproof.motion.CutLoop;
import foilproof.motion.Extents;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;
import foilproof.motion.Toolpaths;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Which strokes of a job are copper work: isolation or clearing that takes material, no first pass of an outline, no part
 * of a hole, no mark.
 */
public final class CopperWork {
    /** A shallow stroke over the box of a deep one, within this, is its first pass, mm. */
    private static final double SAME_WAY_MM = 0.5;

    private final BitSet deep = new BitSet();
    private final BitSet copper = new BitSet();
    private final Map<Integer, List<Stroke>> bySide = new TreeMap<>();

    private CopperWork() {}

    static CopperWork of(Examination x) {
        CopperWork w = new CopperWork();
        w.findDeep(x.paths());
        for (Stroke stroke : x.paths().strokes()) {
            if (w.deep.get(stroke.index()) || x.paths().makesHole(stroke) || stroke.vertical()) {
                continue;
            }
            Work work = x.paths().workOf(stroke);
            if ((work == Work.ISOLATION || work == Work.CLEARING) && firstCut(x, stroke) >= 0) {
                w.copper.set(stroke.index());
                w.bySide
                        .computeIfAbsent(x.run(stroke.run()).side().number(), s -> new ArrayList<>())
                        .add(stroke);
            }
        }
        return w;
    }

    private void findDeep(Toolpaths paths) {
        for (CutLoop loop : paths.outlines()) {
            loop.strokes().forEach(deep::set);
        }
        Map<Integer, List<Extents>> boxes = new TreeMap<>();
        for (Stroke stroke : paths.strokes()) {
            if (!paths.makesHole(stroke) && stroke.depthMm() > Toolpaths.COPPER_DEPTH_MM) {
                boxes.computeIfAbsent(stroke.run(), r -> new ArrayList<>()).add(stroke.extents());
            }
        }
        for (Stroke stroke : paths.strokes()) {
            for (Extents box : boxes.getOrDefault(stroke.run(), List.of())) {
                if (sameWay(stroke.extents(), box)) {
                    deep.set(stroke.index());
                    break;
                }
            }
        }
    }

    private static boolean sameWay(Extents a, Extents b) {
        return Math.abs(a.x0Mm() - b.x0Mm()) < SAME_WAY_MM
                && Math.abs(a.y0Mm() - b.y0Mm()) < SAME_WAY_MM
                && Math.abs(a.x1Mm() - b.x1Mm()) < SAME_WAY_MM
                && Math.abs(a.y1Mm() - b.y1Mm()) < SAME_WAY_MM;
    }

    /** Whether a stroke is copper work. */
    public boolean is(Stroke stroke) {
        return copper.get(stroke.index());
    }

    /** Whether a stroke belongs to an outline or an inside cut, its shallow first passes included. */
    public boolean partOfDeepCut(Stroke stroke) {
        return deep.get(stroke.index());
    }

    /** Whether any program of the job does copper work. */
    public boolean any() {
        return !copper.isEmpty();
    }

    /** The copper work of a side, in the order in which it runs. */
    public List<Stroke> on(int side) {
        return bySide.getOrDefault(side, List.of());
    }

    /** The box round the paths of a side's copper work: x0, y0, x1, y1, mm, the side's frame; null where there is none. */
    public double @Nullable [] boxOn(int side) {
        double[] box = null;
        for (Stroke stroke : on(side)) {
            Extents e = stroke.extents();
            if (box == null) {
                box = new double[] {e.x0Mm(), e.y0Mm(), e.x1Mm(), e.y1Mm()};
            }
            box[0] = Math.min(box[0], e.x0Mm());
            box[1] = Math.min(box[1], e.y0Mm());
            box[2] = Math.max(box[2], e.x1Mm());
            box[3] = Math.max(box[3], e.y1Mm());
        }
        return box;
    }

    /** The first lateral segment of a stroke that took material; -1 where none did. */
    static int firstCut(Examination x, Stroke stroke) {
        Segments s = x.plan().segments();
        for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
            if (s.planLengthMm(i) > 1e-6 && x.removes(i)) {
                return i;
            }
        }
        return -1;
    }
}

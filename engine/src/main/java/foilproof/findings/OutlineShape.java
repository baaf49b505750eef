package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.design.Bounds;
import foilproof.design.Outline;
import foilproof.motion.CutLoop;
import foilproof.motion.Extents;
import foilproof.motion.Segments;
import foilproof.motion.Stroke;

/**
 * The shape of a cut against the line that was drawn for it, the middles of both boxes laid on each other. A wall stands a
 * cutter's radius from the path. Material left too much is measured from the line to the path, which a sharp corner of the
 * path cannot disturb; material cut too much from the path to the line, which an inside corner cannot disturb.
 */
final class OutlineShape {
    private static final double STEP_MM = 0.1;
    private static final double PLUS_MINUS_MM = 0.003;
    /** Fillets up to three times the cutter's radius and 0.3 mm are a matter of inside corners, not of shape. */
    private static final double FILLET = 3;

    private static final double FILLET_MM = 0.3;
    /** A corner of the line turns by at least this, rad. */
    private static final double CORNER_RAD = 0.3;

    private OutlineShape() {}

    /** How far a wall is off at a place of the line; + = material left beyond the line. */
    private record Off(double mm, double xMm, double yMm) {}

    static void judge(Examination x, CutLoop loop, Outline.Ring ring, boolean opening, FindingCollector out) {
        double r = x.run(loop.run()).knownTool().cutRadiusAtHeightMm(0);
        Bounds b = ring.bounds();
        Extents e = loop.extents();
        LoopShape path = LoopShape.of(x, loop, loop.side());
        LoopShape line = LoopShape.of(
                ring,
                (e.x0Mm() + e.x1Mm() - b.minXMm() - b.maxXMm()) / 2,
                (e.y0Mm() + e.y1Mm() - b.minYMm() - b.maxYMm()) / 2);
        Off cut = cutTooMuch(path, line, r, opening);
        Off left = leftTooMuch(path, line, r, opening);
        Off corner = inCorners(path, line, r, opening);
        double limit = x.limit(LimitKey.OUTLINE_OFF);
        Off worst = cut.mm() > left.mm() ? cut : left;
        if (worst.mm() > limit + PLUS_MINUS_MM) {
            boolean more = worst == left;
            // in a corner a cut on the wrong side takes more than the diameter
            boolean diameter =
                    more ? Math.abs(worst.mm() - 2 * r) < OutlineFit.SAME_MM : worst.mm() > 2 * r - OutlineFit.SAME_MM;
            boolean side = diameter || Math.abs(worst.mm() - r) < OutlineFit.SAME_MM;
            String how = !side
                    ? ""
                    : more
                            ? " That is the cutter's " + (diameter ? "diameter" : "radius")
                                    + ": the cut runs too far off the line there."
                            : diameter
                                    ? " That is the cutter's diameter or more: the cut runs on the wrong side of the line there."
                                    : " That is the cutter's radius: the cut runs on the line itself there, not beside it.";
            out.add(at(x, loop, Kinds.OUTLINE_OFF, side ? Severity.STOP : Severity.WATCH, worst)
                    .atMost(Measured.mm("wall off the drawn line", worst.mm(), PLUS_MINUS_MM), limit)
                    .says("The " + (opening ? "opening" : "board") + " has the right size, but not the drawn shape: at "
                            + Words.place(worst.xMm(), worst.yMm()) + " the cut "
                            + (more ? "leaves " : "takes ") + Words.mm(worst.mm())
                            + (more ? " too much." : " too much away.") + how)
                    .doThis("Make the outline program again from the outline of this revision.")
                    .build());
        }
        double most = r + x.limit(LimitKey.CORNER_LEFT);
        if (corner.mm() > most + PLUS_MINUS_MM) {
            out.add(at(x, loop, Kinds.CORNER_LEFT, Severity.NOTE, corner)
                    .atMost(Measured.mm("material left in the corner", corner.mm(), PLUS_MINUS_MM), most)
                    .says("In an inside corner the cut leaves " + Words.mm(corner.mm())
                            + " of material to the drawn corner; the cutter alone would leave a radius of "
                            + Words.plainMm(r) + ". A square counterpart does not go in.")
                    .doThis("Run a relief into the corner, or use a smaller cutter there.")
                    .build());
        }
    }

    private static Finding.Builder at(Examination x, CutLoop loop, String kind, Severity severity, Off off) {
        Segments s = x.plan().segments();
        int nearest = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int k : loop.strokes()) {
            Stroke stroke = x.paths().strokes().get(k);
            for (int i = stroke.firstSegment(); i < stroke.endSegment(); i++) {
                double d = s.planLengthMm(i) > 0 && s.lowestMm(i) <= loop.deepestMm() + 1e-6
                        ? Paths.distanceMm(s, i, off.xMm(), off.yMm())
                        : Double.POSITIVE_INFINITY;
                if (d < least - 1e-9) {
                    least = d;
                    nearest = i;
                }
            }
        }
        return x.at(Finding.of(kind, severity, Certainty.GEOMETRY), nearest)
                .side(loop.side())
                .at(off.xMm(), off.yMm());
    }

    /** Where the path runs nearer to the line than the cutter's radius, or on its wrong side. */
    private static Off cutTooMuch(LoopShape path, LoopShape line, double r, boolean opening) {
        Off worst = new Off(0, 0, 0);
        for (int k = 0; k < path.size(); k++) {
            double length = StrictMath.hypot(path.xMm(k + 1) - path.xMm(k), path.yMm(k + 1) - path.yMm(k));
            int n = (int) Math.max(1, Math.ceil(length / STEP_MM));
            for (int j = 0; j < n; j++) {
                double px = path.xMm(k) + (path.xMm(k + 1) - path.xMm(k)) * j / n;
                double py = path.yMm(k) + (path.yMm(k + 1) - path.yMm(k)) * j / n;
                double[] near = line.nearest(px, py);
                boolean rightSide = line.holds(px, py) == opening;
                double off = r - (rightSide ? near[0] : -near[0]);
                if (off > worst.mm() + 1e-9) {
                    worst = new Off(off, near[1], near[2]);
                }
            }
        }
        return worst;
    }

    /** How far the wall stands beyond a place of the line; 0 and less where it reaches the line. */
    private static double beyond(LoopShape path, double qx, double qy, double r, boolean opening) {
        double to = path.nearest(qx, qy)[0];
        return path.holds(qx, qy) == opening ? -to - r : to - r;
    }

    /** Where the wall stands beyond the line although a cutter of usual size could reach it. */
    private static Off leftTooMuch(LoopShape path, LoopShape line, double r, boolean opening) {
        Off worst = new Off(0, 0, 0);
        double reach = FILLET * r + FILLET_MM;
        for (int k = 0; k < line.size(); k++) {
            double dx = line.xMm(k + 1) - line.xMm(k);
            double dy = line.yMm(k + 1) - line.yMm(k);
            double length = StrictMath.hypot(dx, dy);
            int n = (int) Math.max(1, Math.ceil(length / STEP_MM));
            for (int j = 0; j < n && length > 1e-9; j++) {
                double qx = line.xMm(k) + dx * (j + 0.5) / n;
                double qy = line.yMm(k) + dy * (j + 0.5) / n;
                double off = beyond(path, qx, qy, r, opening);
                if (off > worst.mm() + 1e-9) {
                    // into the waste: a disc that touches the line here must not cross it elsewhere
                    double nx = -dy / length;
                    double ny = dx / length;
                    double hand = line.holds(qx + 0.01 * nx, qy + 0.01 * ny) == opening ? reach : -reach;
                    if (line.nearest(qx + nx * hand, qy + ny * hand)[0] > reach - 0.01) {
                        worst = new Off(off, qx, qy);
                    }
                }
            }
        }
        return worst;
    }

    private static Off inCorners(LoopShape path, LoopShape line, double r, boolean opening) {
        Off worst = new Off(0, 0, 0);
        for (int k = 0; k < line.size(); k++) {
            if (corner(line, k, opening)) {
                double off = beyond(path, line.xMm(k), line.yMm(k), r, opening);
                worst = off > worst.mm() + 1e-9 ? new Off(off, line.xMm(k), line.yMm(k)) : worst;
            }
        }
        return worst;
    }

    /** Whether the line has an inside corner there: material fills more than half of the turn round it. */
    private static boolean corner(LoopShape line, int k, boolean opening) {
        double ax = line.xMm(k) - line.xMm(k - 1);
        double ay = line.yMm(k) - line.yMm(k - 1);
        double bx = line.xMm(k + 1) - line.xMm(k);
        double by = line.yMm(k + 1) - line.yMm(k);
        double la = StrictMath.hypot(ax, ay);
        double lb = StrictMath.hypot(bx, by);
        if (la < 1e-6 || lb < 1e-6) {
            return false;
        }
        double turn = StrictMath.atan2(ax * by - ay * bx, ax * bx + ay * by);
        if (Math.abs(turn) < CORNER_RAD) {
            return false;
        }
        // just beside the corner, between its two edges
        double step = Math.min(0.01, Math.min(la, lb) / 4);
        double mx = line.xMm(k) + step * (bx / lb - ax / la);
        double my = line.yMm(k) + step * (by / lb - ay / la);
        return line.holds(mx, my) == opening;
    }
}

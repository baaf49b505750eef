package foilproof.language;

import foilproof.geom.ArcSweep;

/**
 * Cutter radius compensation: NISTIR 6556 appendix B. The tool's centre runs beside the programmed path; at a convex
 * corner it goes round on an arc of the tool's radius; a concave corner is an error. The first move goes straight (or
 * on an arc) to a point beside its programmed end; there is no exit move.
 */
final class Compensation {
    /** Corners turned inward by no more than this, radians, count as straight on (rounded path points; from memory of the reference program). */
    private static final double CORNER_TOLERANCE_RAD = 0.01;

    private final Controller c;

    Compensation(Controller controller) {
        this.c = controller;
    }

    boolean on() {
        return c.comp != CutterComp.OFF;
    }

    boolean first() {
        return Double.isNaN(c.compX);
    }

    /** The programmed point, from which the next move counts: on a compensated path not where the tool stands. */
    double programmedX() {
        return first() ? c.position[0] : c.compX;
    }

    double programmedY() {
        return first() ? c.position[1] : c.compY;
    }

    private double radius() {
        return Math.abs(c.compRadiusMm) / c.scale();
    }

    /** +1 where the tool's centre lies left of the path; a negative radius changes sides. */
    private int side() {
        return (c.comp == CutterComp.LEFT) == (c.compRadiusMm >= 0) ? 1 : -1;
    }

    void straight(Block block, boolean rapid, double x, double y, double z) throws ProgramException {
        double fromX = programmedX();
        double fromY = programmedY();
        double length = Arcs.hypot(x - fromX, y - fromY);
        if (length * c.scale() <= Arcs.SAME_POINT_MM) {
            line(rapid, c.position[0], c.position[1], z);
            return;
        }
        double r = radius();
        int side = side();
        if (first()) {
            if (length <= r) {
                throw block.error(
                                "comp-gouge",
                                "the first move with radius compensation is not longer than the cutter's radius")
                        .expecting("Expected a longer move onto the path.");
            }
            // The tool touches the end point square to the line from where it stands (appendix B, entry moves).
            double theta = StrictMath.acos(r / length);
            double back = StrictMath.atan2(fromY - y, fromX - x);
            double alpha = back - side * theta;
            line(rapid, x + r * StrictMath.cos(alpha), y + r * StrictMath.sin(alpha), z);
        } else {
            double normalX = -side * (y - fromY) / length;
            double normalY = side * (x - fromX) / length;
            corner(block, rapid, normalX, normalY, length);
            line(rapid, x + r * normalX, y + r * normalY, z);
        }
        c.compX = x;
        c.compY = y;
    }

    private void line(boolean rapid, double x, double y, double z) throws ProgramException {
        if (rapid) {
            c.traverse(x, y, z, CanonicalProgram.COMPENSATED);
        } else {
            c.feed(x, y, z, CanonicalProgram.COMPENSATED);
        }
    }

    /** Goes round a convex corner at the programmed point, or finds that it is concave. */
    private void corner(Block block, boolean rapid, double normalX, double normalY, double moveLength)
            throws ProgramException {
        double r = radius();
        if (r * c.scale() <= Arcs.SAME_POINT_MM) {
            return;
        }
        double oldX = c.position[0] - c.compX;
        double oldY = c.position[1] - c.compY;
        double cross = oldX * normalY - oldY * normalX;
        double dot = oldX * normalX + oldY * normalY;
        double beta = -side() * StrictMath.atan2(cross, dot);
        if (beta < -CORNER_TOLERANCE_RAD && beta > -Math.PI + CORNER_TOLERANCE_RAD) {
            throw block.error("comp-corner", "an inside corner that the cutter cannot enter with radius compensation")
                    .expecting("Expected an arc of more than the cutter's radius in the corner.");
        }
        if (Math.abs(beta) <= CORNER_TOLERANCE_RAD) {
            return;
        }
        double x = c.compX + r * normalX;
        double y = c.compY + r * normalY;
        if (rapid) {
            throw block.error("comp-corner", "a rapid move round an outside corner with radius compensation")
                    .expecting("Expected G1 there: the way round is an arc at feed.");
        }
        // The time of an inverse time line is shared by length, so that the speed stays one (appendix B).
        double share = r * Math.abs(beta) / (r * Math.abs(beta) + moveLength);
        c.timeShare = share;
        c.arc(x, y, c.position[2], c.compX, c.compY, -side(), CanonicalProgram.COMPENSATED);
        c.timeShare = 1 - share;
    }

    private double sweepRad(Arcs arcs) {
        double mm = c.scale();
        return ArcSweep.sweepRad(
                mm * (c.compX - arcs.centreFirst),
                mm * (c.compY - arcs.centreSecond),
                mm * (arcs.endFirst - arcs.centreFirst),
                mm * (arcs.endSecond - arcs.centreSecond),
                arcs.turn,
                Arcs.SAME_POINT_MM);
    }

    void arc(Block block, int code, double toX, double toY, double z, Arcs arcs) throws ProgramException {
        double r = radius();
        if (first()) {
            firstArc(block, code, toX, toY, z, arcs);
            return;
        }
        arcs.solve(block, code, c.compX, c.compY, toX, toY);
        boolean inside = arcs.turn > 0 == side() > 0;
        double startRadius = Arcs.hypot(c.compX - arcs.centreFirst, c.compY - arcs.centreSecond);
        double endRadius = Arcs.hypot(arcs.endFirst - arcs.centreFirst, arcs.endSecond - arcs.centreSecond);
        if (inside && startRadius <= r) {
            throw block.error("comp-arc", "an inside arc whose radius is not more than the cutter's")
                    .expecting("Expected a smaller cutter or a larger arc.");
        }
        int outward = inside ? -1 : 1;
        double startX = outward * (c.compX - arcs.centreFirst) / startRadius;
        double startY = outward * (c.compY - arcs.centreSecond) / startRadius;
        double endX = outward * (arcs.endFirst - arcs.centreFirst) / endRadius;
        double endY = outward * (arcs.endSecond - arcs.centreSecond) / endRadius;
        double programmedX = arcs.endFirst;
        double programmedY = arcs.endSecond;
        corner(block, false, startX, startY, startRadius * Math.abs(sweepRad(arcs)));
        c.arc(
                programmedX + r * endX,
                programmedY + r * endY,
                z,
                arcs.centreFirst,
                arcs.centreSecond,
                arcs.turn,
                CanonicalProgram.COMPENSATED);
        c.compX = programmedX;
        c.compY = programmedY;
    }

    /** Entry on an arc: the tool's centre runs on one circle from where it stands to beside the programmed end. */
    private void firstArc(Block block, int code, double toX, double toY, double z, Arcs arcs) throws ProgramException {
        if (block.has('R')) {
            firstArcByRadius(block, code, toX, toY, z);
            return;
        }
        double r = radius();
        int turn = code == 30 ? 1 : -1;
        boolean inside = turn > 0 == side() > 0;
        double centreX = c.arcCentresAbsolute ? block.value('I', 0) : c.position[0] + block.value('I', 0);
        double centreY = c.arcCentresAbsolute ? block.value('J', 0) : c.position[1] + block.value('J', 0);
        double centreToStart = Arcs.hypot(c.position[0] - centreX, c.position[1] - centreY);
        double pathRadius = Arcs.hypot(toX - centreX, toY - centreY);
        double wanted = inside ? pathRadius - r : pathRadius + r;
        if (wanted <= 0 || pathRadius * c.scale() <= Arcs.SAME_POINT_MM) {
            throw block.error("comp-arc", "an inside arc whose radius is not more than the cutter's")
                    .expecting("Expected a smaller cutter or a larger arc.");
        }
        if (Math.abs(centreToStart - wanted) * c.scale() > arcs.toleranceMm(wanted * c.scale())) {
            throw block.error(
                            "arc-radii",
                            "the entry arc does not end beside its programmed end: its radius differs there")
                    .expecting("Expected a centre that fits both the tool's place and the end point.");
        }
        double out = inside ? -r : r;
        c.arc(
                toX + out * (toX - centreX) / pathRadius,
                toY + out * (toY - centreY) / pathRadius,
                z,
                centreX,
                centreY,
                turn,
                CanonicalProgram.COMPENSATED);
        c.compX = toX;
        c.compY = toY;
    }

    /**
     * R is the radius of the programmed arc; the tool's centre runs on the concentric circle, R larger or smaller by
     * the cutter's radius, from where it stands: the centre is where both circles meet.
     */
    private void firstArcByRadius(Block block, int code, double toX, double toY, double z) throws ProgramException {
        double r = radius();
        double pathRadius = Math.abs(block.value('R'));
        int turn = code == 30 ? 1 : -1;
        boolean inside = turn > 0 == side() > 0;
        double toolRadius = inside ? pathRadius - r : pathRadius + r;
        if (toolRadius <= 0) {
            throw block.error("comp-arc", 'R', "an inside arc whose radius is not more than the cutter's")
                    .expecting("Expected a smaller cutter or a larger arc.");
        }
        double dx = toX - c.position[0];
        double dy = toY - c.position[1];
        double d = Arcs.hypot(dx, dy);
        double along = d == 0 ? 0 : (d * d + toolRadius * toolRadius - pathRadius * pathRadius) / (2 * d);
        double height2 = toolRadius * toolRadius - along * along;
        if (d == 0 || height2 < 0) {
            throw block.error("arc-radius", 'R', "no arc of this radius leads from the tool to beside the end point")
                    .expecting("Expected a larger radius, or the centre form.");
        }
        boolean centreOnLeft = turn > 0 == block.value('R') > 0;
        double height = centreOnLeft ? Math.sqrt(height2) : -Math.sqrt(height2);
        double centreX = c.position[0] + (along * dx - height * dy) / d;
        double centreY = c.position[1] + (along * dy + height * dx) / d;
        double out = inside ? -r : r;
        c.arc(
                toX + out * (toX - centreX) / pathRadius,
                toY + out * (toY - centreY) / pathRadius,
                z,
                centreX,
                centreY,
                turn,
                CanonicalProgram.COMPENSATED);
        c.compX = toX;
        c.compY = toY;
    }
}

package foilproof.design;

import java.util.ArrayList;
import java.util.List;

/** An arc stroke of a round pen of radius {@code pen}, with round ends. */
final class ArcFigure extends PathFigure {
    final PathEdge stroke;
    final double pen;

    private ArcFigure(PathEdge stroke, double pen, List<List<PathEdge>> contours, boolean evenOdd, double area) {
        super(contours, evenOdd, area);
        this.stroke = stroke;
        this.pen = pen;
    }

    /** The pen of radius {@code pen} mm drawn along {@code stroke}, an arc of radius above 0. */
    static ArcFigure of(PathEdge stroke, double pen) {
        double big = stroke.radiusMm() + pen;
        double small = Math.max(0, stroke.radiusMm() - pen);
        double cx = stroke.cxMm();
        double cy = stroke.cyMm();
        List<List<PathEdge>> contours = new ArrayList<>();
        double sweep = Math.abs(stroke.turnRad());
        if (sweep >= 2 * StrictMath.PI - 1e-12) {
            contours.add(List.of(PathEdge.circle(cx, cy, big)));
            if (small > 0) {
                contours.add(List.of(PathEdge.circle(cx, cy, small)));
            }
            return new ArcFigure(stroke, pen, contours, true, StrictMath.PI * (big * big - small * small));
        }
        double a0 = StrictMath.atan2(stroke.y0Mm() - cy, stroke.x0Mm() - cx);
        double a1 = a0 + stroke.turnRad();
        double c0 = StrictMath.cos(a0);
        double s0 = StrictMath.sin(a0);
        double c1 = StrictMath.cos(a1);
        double s1 = StrictMath.sin(a1);
        List<PathEdge> sector = new ArrayList<>();
        sector.add(new PathEdge(cx + big * c0, cy + big * s0, cx + big * c1, cy + big * s1, cx, cy, stroke.turnRad()));
        sector.add(PathEdge.line(cx + big * c1, cy + big * s1, cx + small * c1, cy + small * s1));
        if (small > 0) {
            sector.add(new PathEdge(
                    cx + small * c1, cy + small * s1, cx + small * c0, cy + small * s0, cx, cy, -stroke.turnRad()));
        }
        sector.add(PathEdge.line(cx + small * c0, cy + small * s0, cx + big * c0, cy + big * s0));
        contours.add(sector);
        double r = stroke.radiusMm();
        contours.add(List.of(PathEdge.circle(cx + r * c0, cy + r * s0, pen)));
        contours.add(List.of(PathEdge.circle(cx + r * c1, cy + r * s1, pen)));
        // up to half a turn the round ends lie clear of the band and of each other: length x width + a disc
        double area = sweep <= StrictMath.PI && r >= pen ? 2 * pen * r * sweep + StrictMath.PI * pen * pen : Double.NaN;
        return new ArcFigure(stroke, pen, contours, false, area);
    }

    @Override
    boolean connected() {
        return true;
    }

    @Override
    ArcFigure mapped(PlaneMap map) {
        return of(stroke.mapped(map), pen * map.scaleFactor());
    }
}

package foilproof.design;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Makes the usual figures, with their areas by closed forms. */
final class Figures {
    private Figures() {}

    static PathFigure circle(double cx, double cy, double r) {
        return new PathFigure(List.of(List.of(PathEdge.circle(cx, cy, r))), false, StrictMath.PI * r * r);
    }

    static PathFigure ring(double cx, double cy, double outer, double inner) {
        return new PathFigure(
                List.of(List.of(PathEdge.circle(cx, cy, outer)), List.of(PathEdge.circle(cx, cy, inner))),
                true,
                StrictMath.PI * (outer * outer - inner * inner));
    }

    /** A polygon that does not cross itself, corners as x, y pairs. */
    static PathFigure polygon(double[] points) {
        List<PathEdge> edges = new ArrayList<>();
        int n = points.length / 2;
        for (int i = 0; i < n; i++) {
            int j = (i + 1) % n;
            edges.add(PathEdge.line(points[2 * i], points[2 * i + 1], points[2 * j], points[2 * j + 1]));
        }
        return new PathFigure(List.of(edges), false, Math.abs(PathFigure.twiceAreaMm2(edges)) / 2);
    }

    static List<PathEdge> rectangleContour(double w, double h) {
        double a = w / 2;
        double b = h / 2;
        return List.of(
                PathEdge.line(-a, -b, a, -b),
                PathEdge.line(a, -b, a, b),
                PathEdge.line(a, b, -a, b),
                PathEdge.line(-a, b, -a, -b));
    }

    /** A slot-shaped contour round the zero: a rectangle with half discs at its shorter ends. */
    static List<PathEdge> obroundContour(double w, double h) {
        if (w == h) {
            return List.of(PathEdge.circle(0, 0, w / 2));
        }
        double half = StrictMath.PI;
        if (w > h) {
            double a = (w - h) / 2;
            double r = h / 2;
            return List.of(
                    PathEdge.line(-a, -r, a, -r),
                    new PathEdge(a, -r, a, r, a, 0, half),
                    PathEdge.line(a, r, -a, r),
                    new PathEdge(-a, r, -a, -r, -a, 0, half));
        }
        double a = (h - w) / 2;
        double r = w / 2;
        return List.of(
                PathEdge.line(r, -a, r, a),
                new PathEdge(r, a, -r, a, 0, a, half),
                PathEdge.line(-r, a, -r, -a),
                new PathEdge(-r, -a, r, -a, 0, -a, half));
    }

    static double[] regularCorners(double cx, double cy, double r, int n, double rotationDeg) {
        double[] points = new double[2 * n];
        for (int i = 0; i < n; i++) {
            double angle = StrictMath.toRadians(rotationDeg + 360.0 * i / n);
            points[2 * i] = cx + r * StrictMath.cos(angle);
            points[2 * i + 1] = cy + r * StrictMath.sin(angle);
        }
        return points;
    }

    static PathFigure regularPolygon(double cx, double cy, double r, int n, double rotationDeg) {
        return polygon(regularCorners(cx, cy, r, n, rotationDeg));
    }

    /**
     * A contour round the zero with a hole in it.
     *
     * @param inscribed radius of the largest disc about the zero inside the contour
     * @param hole null where there is none
     * @param reach distance of the hole's farthest point from the zero
     */
    static Figure withHole(List<PathEdge> contour, double inscribed, @Nullable List<PathEdge> hole, double reach) {
        double area = Math.abs(PathFigure.twiceAreaMm2(contour)) / 2;
        PathFigure outer = new PathFigure(List.of(contour), false, area);
        if (hole == null) {
            return outer;
        }
        double inner = Math.abs(PathFigure.twiceAreaMm2(hole)) / 2;
        if (reach < inscribed) {
            return new PathFigure(List.of(contour, hole), true, area - inner);
        }
        PathFigure cut = new PathFigure(List.of(hole), false, inner);
        return new CompoundFigure(List.of(outer, cut), new boolean[] {true, false});
    }

    /** The quarter of a thermal in the first quadrant, about the zero; null where the gaps leave nothing. */
    static @Nullable PathFigure thermalQuarter(double outer, double inner, double gap) {
        double xo = Math.sqrt(outer * outer - gap * gap);
        List<PathEdge> edges = new ArrayList<>();
        double a0 = StrictMath.atan2(gap, xo);
        double turn = StrictMath.PI / 2 - 2 * a0;
        if (turn <= 0) {
            return null;
        }
        edges.add(new PathEdge(xo, gap, gap, xo, 0, 0, turn));
        if (inner * inner > 2 * gap * gap) {
            double xi = Math.sqrt(inner * inner - gap * gap);
            double b0 = StrictMath.atan2(gap, xi);
            edges.add(PathEdge.line(gap, xo, gap, xi));
            edges.add(new PathEdge(gap, xi, xi, gap, 0, 0, -(StrictMath.PI / 2 - 2 * b0)));
            edges.add(PathEdge.line(xi, gap, xo, gap));
        } else {
            edges.add(PathEdge.line(gap, xo, gap, gap));
            edges.add(PathEdge.line(gap, gap, xo, gap));
        }
        return new PathFigure(List.of(edges), false, Math.abs(PathFigure.twiceAreaMm2(edges)) / 2);
    }
}

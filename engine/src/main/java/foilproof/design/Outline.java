package foilproof.design;

import java.util.ArrayList;
import java.util.List;

/**
 * Closed contours of the board: its outer edge and inner cut-outs, in design coordinates.
 *
 * @param rings closed rings, largest area first
 */
public record Outline(List<Ring> rings) {
    /** Copies the list. */
    public Outline {
        rings = List.copyOf(rings);
    }

    /**
     * A closed ring, each edge beginning where the one before ends.
     *
     * @param edges lines and arcs
     * @param line line of the file where the ring begins
     */
    public record Ring(List<PathEdge> edges, int line) {
        /** Copies the list. */
        public Ring {
            edges = List.copyOf(edges);
        }

        /** Enclosed area, mm2, above 0 whichever way the ring runs (Green's theorem over lines and arcs, exact). */
        public double areaMm2() {
            double twice = 0;
            for (PathEdge edge : edges) {
                twice += edge.twiceAreaMm2();
            }
            return Math.abs(twice) / 2;
        }

        /** Length round the ring, mm. */
        public double perimeterMm() {
            double sum = 0;
            for (PathEdge edge : edges) {
                sum += edge.lengthMm();
            }
            return sum;
        }

        /** The box round the ring. */
        public Bounds bounds() {
            Bounds box = Bounds.NONE;
            for (PathEdge edge : edges) {
                box = box.with(edge.bounds());
            }
            return box;
        }

        /** True where the point lies inside (even-odd rule). */
        public boolean holds(double xMm, double yMm) {
            return new PathFigure(List.of(edges), false).contains(xMm, yMm);
        }
    }

    /** The box round all rings. */
    public Bounds bounds() {
        Bounds box = Bounds.NONE;
        for (Ring ring : rings) {
            box = box.with(ring.bounds());
        }
        return box;
    }

    /** True where the point is board: inside an odd number of rings. */
    public boolean holds(double xMm, double yMm) {
        boolean inside = false;
        for (Ring ring : rings) {
            inside ^= ring.holds(xMm, yMm);
        }
        return inside;
    }

    /** The same outline in another frame. */
    public Outline mapped(PlaneMap map) {
        List<Ring> out = new ArrayList<>();
        for (Ring ring : rings) {
            List<PathEdge> edges = new ArrayList<>();
            for (PathEdge edge : ring.edges()) {
                edges.add(edge.mapped(map));
            }
            out.add(new Ring(edges, ring.line()));
        }
        return new Outline(out);
    }
}

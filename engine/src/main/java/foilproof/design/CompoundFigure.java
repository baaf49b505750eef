package foilproof.design;

import java.util.ArrayList;
import java.util.List;

/** Figures laid over each other in order, each adding to or clearing from what came before: an aperture macro. */
final class CompoundFigure extends Figure {
    final List<PathFigure> parts;
    private final boolean[] dark;

    CompoundFigure(List<PathFigure> parts, boolean[] dark) {
        super(boundsOf(parts, dark));
        this.parts = List.copyOf(parts);
        this.dark = dark.clone();
    }

    private static Bounds boundsOf(List<PathFigure> parts, boolean[] dark) {
        Bounds box = Bounds.NONE;
        for (int i = 0; i < dark.length; i++) {
            box = dark[i] ? box.with(parts.get(i).box) : box;
        }
        return box;
    }

    @Override
    boolean contains(double x, double y) {
        for (int i = parts.size() - 1; i >= 0; i--) {
            if (parts.get(i).contains(x, y)) {
                return dark[i];
            }
        }
        return false;
    }

    @Override
    void spans(double y, double dx, Spans out) {
        Spans all = new Spans();
        Spans one = new Spans();
        for (int i = 0; i < dark.length; i++) {
            one.clear();
            parts.get(i).spans(y, dx, one);
            one.normalise();
            if (dark[i]) {
                all.unite(one);
            } else {
                all.subtract(one);
            }
        }
        for (int i = 0; i < all.count; i++) {
            out.add(all.at[2 * i], all.at[2 * i + 1]);
        }
    }

    @Override
    void criticalYs(double dy, Ys out) {
        for (PathFigure part : parts) {
            part.criticalYs(dy, out);
        }
    }

    @Override
    boolean connected() {
        return dark.length == 1 && dark[0] && parts.get(0).connected();
    }

    @Override
    double closedFormAreaMm2() {
        return dark.length == 0 ? 0 : dark.length == 1 && dark[0] ? parts.get(0).areaMm2() : Double.NaN;
    }

    @Override
    Figure mapped(PlaneMap map) {
        List<PathFigure> out = new ArrayList<>(parts.size());
        for (PathFigure part : parts) {
            out.add(part.mapped(map));
        }
        return new CompoundFigure(out, dark);
    }
}

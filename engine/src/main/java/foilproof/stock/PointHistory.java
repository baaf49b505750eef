package foilproof.stock;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Who cut at a point of one side, asked from the segment bins: nothing of it is stored per cell. Exact shapes, in
 * time order.
 *
 * @param cuts every move that came to the point below its foil top, in time order
 * @param brokeFoil the first that left the point at or below the foil's glue plane, with the moment at which it got
 *     there; null where the foil is not broken
 * @param madeFloor the first that left the point as low as it is, or null where nothing was cut
 */
public record PointHistory(
        List<Cut> cuts, @Nullable Cut brokeFoil, @Nullable Cut madeFloor) {
    /** Heights nearer than this are the same floor, mm: rounding of double precision with a wide margin. */
    private static final double SAME_FLOOR_MM = 1e-7;

    /** Copies the list. */
    public PointHistory {
        cuts = List.copyOf(cuts);
    }

    /** The history of a point, blank's frame of the side. */
    public static PointHistory at(ComposedSide side, double xMm, double yMm) {
        List<Cut> cuts = new ArrayList<>();
        Cut broke = null;
        Cut floor = null;
        double top = side.surfaceMm(xMm, yMm);
        double bottom = side.foilBottomMm(xMm, yMm);
        for (Layer layer : side.layers()) {
            Probe probe = new Probe(layer, xMm, yMm);
            for (int p : probe.pieces()) {
                double height = probe.heightMm(p);
                if (height >= top) {
                    continue;
                }
                Cut cut = probe.cut(p, height, probe.footS(p));
                if (!cuts.isEmpty() && cuts.get(cuts.size() - 1).segment() == cut.segment()) {
                    Cut last = cuts.remove(cuts.size() - 1);
                    cuts.add(cut.heightMm() < last.heightMm() ? cut : last);
                } else {
                    cuts.add(cut);
                }
                if (broke == null && height <= bottom) {
                    broke = probe.cut(p, height, probe.reachedS(p, bottom));
                }
                if (floor == null || height < floor.heightMm() - SAME_FLOOR_MM) {
                    floor = cut;
                }
            }
        }
        return new PointHistory(cuts, broke, floor);
    }

    /** One envelope at one point. */
    private static final class Probe {
        private final Layer layer;
        private final Envelope envelope;
        private final double x;
        private final double y;

        Probe(Layer layer, double xMm, double yMm) {
            this.layer = layer;
            envelope = layer.envelope();
            x = layer.x(xMm);
            y = layer.y(yMm);
        }

        int[] pieces() {
            SegmentBins bins = envelope.bins();
            int tile = bins.tileAt(x, y);
            if (tile < 0) {
                return new int[0];
            }
            int from = bins.from(tile);
            int to = bins.from(tile, envelope.endPiece());
            int[] out = new int[to - from];
            for (int at = from; at < to; at++) {
                out[at - from] = bins.piece(at);
            }
            return out;
        }

        double heightMm(int p) {
            return PieceShape.heightMm(envelope.pieces(), p, envelope.profile(), x, y) + layer.shiftMm();
        }

        double footS(int p) {
            return timeS(p, PieceShape.foot(envelope.pieces(), p, envelope.profile(), x, y));
        }

        double reachedS(int p, double levelMm) {
            double at = PieceShape.reached(envelope.pieces(), p, envelope.profile(), x, y, levelMm - layer.shiftMm());
            return Double.isNaN(at) ? footS(p) : timeS(p, at);
        }

        private double timeS(int p, double fraction) {
            Pieces pieces = envelope.pieces();
            CutPath path = envelope.path();
            int move = pieces.move[p];
            double f = pieces.from[p] + (pieces.to[p] - pieces.from[p]) * fraction;
            return path.startS(move) + (path.endS(move) - path.startS(move)) * f;
        }

        Cut cut(int p, double heightMm, double timeS) {
            int segment = envelope.path().firstSegment() + envelope.pieces().move[p];
            return new Cut(layer.run(), segment, heightMm, timeS);
        }
    }
}

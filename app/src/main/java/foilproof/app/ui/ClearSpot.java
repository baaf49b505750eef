package foilproof.app.ui;

import foilproof.bench.JobMove;
import foilproof.bench.KeepOut;
import java.util.BitSet;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The nearest place on a used blank where a job finds room: on a grid of cells, every cell that the job touches must lie on
 * the blank, {@link #EDGE_MM} from its edges, and {@link #APART_MM} from what was cut before and from what stands on it.
 * What is found is checked cell by cell; since cells count as touched as soon as anything enters them, a place that is
 * told is free, while room tighter than a cell may go unfound.
 */
final class ClearSpot {
    /** What must stay between the cuts of two jobs, mm. */
    static final double APART_MM = 1.0;
    /** What must stay to the blank's edge, mm. */
    static final double EDGE_MM = 0.5;

    private static final double CELL_MM = 0.25;

    private final int columns;
    private final int rows;
    private final double cellMm;
    private final BitSet[] used;

    ClearSpot(double widthMm, double heightMm) {
        // At most 400 cells a side: a clear spot on a large blank need not be told to a quarter of a millimetre.
        cellMm = Math.max(CELL_MM, Math.max(widthMm, heightMm) / 400);
        columns = (int) Math.floor(widthMm / cellMm + 1e-9);
        rows = (int) Math.floor(heightMm / cellMm + 1e-9);
        used = new BitSet[Math.max(1, rows)];
        for (int i = 0; i < used.length; i++) {
            used[i] = new BitSet(columns);
        }
        int edge = (int) Math.ceil(EDGE_MM / cellMm);
        for (int j = 0; j < rows; j++) {
            boolean all = j < edge || j >= rows - edge;
            used[j].set(0, all ? columns : Math.min(edge, columns));
            used[j].set(Math.max(0, columns - edge), columns);
        }
    }

    /** Cell size, mm. */
    double cellMm() {
        return cellMm;
    }

    /** Takes the room of strokes that were cut before. */
    void use(List<JobFootprint.Stroke> strokes) {
        for (JobFootprint.Stroke s : strokes) {
            mark(used, s, s.radiusMm() + APART_MM, 0, 0);
        }
    }

    /** Takes the room of what stands on the blank. */
    void use(KeepOut k) {
        for (int j = Math.max(0, cell(k.y0Mm() - APART_MM)); j <= Math.min(rows - 1, cell(k.y1Mm() + APART_MM)); j++) {
            int from = Math.max(0, cell(k.x0Mm() - APART_MM));
            int to = Math.min(columns - 1, cell(k.x1Mm() + APART_MM));
            if (to >= from) {
                used[j].set(from, to + 1);
            }
        }
    }

    private int cell(double mm) {
        return (int) Math.floor(mm / cellMm);
    }

    /** Sets every cell that a stroke of this reach may touch, shifted by whole cells. */
    private void mark(BitSet[] to, JobFootprint.Stroke s, double reach, int shiftX, int shiftY) {
        // A cell is touched where its middle lies nearer than reach and half a diagonal.
        double r = reach + cellMm * Math.sqrt(0.5);
        double dx = s.x1Mm() - s.x0Mm();
        double dy = s.y1Mm() - s.y0Mm();
        double l2 = dx * dx + dy * dy;
        int j0 = cell(Math.min(s.y0Mm(), s.y1Mm()) - r);
        int j1 = cell(Math.max(s.y0Mm(), s.y1Mm()) + r);
        int i0 = cell(Math.min(s.x0Mm(), s.x1Mm()) - r);
        int i1 = cell(Math.max(s.x0Mm(), s.x1Mm()) + r);
        for (int j = j0; j <= j1; j++) {
            int row = j - shiftY;
            if (row < 0 || row >= to.length) {
                continue;
            }
            double y = (j + 0.5) * cellMm;
            for (int i = i0; i <= i1; i++) {
                int column = i - shiftX;
                if (column < 0 || to[row].get(column)) {
                    continue;
                }
                double x = (i + 0.5) * cellMm;
                double t = l2 < 1e-12 ? 0 : Math.max(0, Math.min(1, ((x - s.x0Mm()) * dx + (y - s.y0Mm()) * dy) / l2));
                double ex = x - s.x0Mm() - t * dx;
                double ey = y - s.y0Mm() - t * dy;
                if (ex * ex + ey * ey < r * r) {
                    to[row].set(column);
                }
            }
        }
    }

    /** The move nearest to this one, along X and Y alone, with which the job finds room; null where there is none. */
    @Nullable
    JobMove nearest(JobFootprint job, JobMove from) {
        List<JobFootprint.Stroke> strokes = job.seenFromFirst(from);
        if (strokes.isEmpty()) {
            return from;
        }
        int[] box = {Integer.MAX_VALUE, Integer.MAX_VALUE, Integer.MIN_VALUE, Integer.MIN_VALUE};
        for (JobFootprint.Stroke s : strokes) {
            double r = s.radiusMm() + cellMm;
            box[0] = Math.min(box[0], cell(Math.min(s.x0Mm(), s.x1Mm()) - r));
            box[1] = Math.min(box[1], cell(Math.min(s.y0Mm(), s.y1Mm()) - r));
            box[2] = Math.max(box[2], cell(Math.max(s.x0Mm(), s.x1Mm()) + r));
            box[3] = Math.max(box[3], cell(Math.max(s.y0Mm(), s.y1Mm()) + r));
        }
        BitSet[] own = new BitSet[box[3] - box[1] + 1];
        for (int j = 0; j < own.length; j++) {
            own[j] = new BitSet();
        }
        strokes.forEach(s -> mark(own, s, s.radiusMm(), box[0], box[1]));
        int wide = box[2] - box[0] + 1;
        JobMove best = null;
        double nearest = Double.POSITIVE_INFINITY;
        for (int y = 0; y + own.length <= rows; y++) {
            for (int x = 0; x + wide <= columns; x++) {
                double dx = (x - box[0]) * cellMm;
                double dy = (y - box[1]) * cellMm;
                double d = dx * dx + dy * dy;
                if (d < nearest && free(own, x, y)) {
                    nearest = d;
                    best = new JobMove(
                            from.xMm() + dx, from.yMm() + dy, from.turnRad(), from.aboutXMm(), from.aboutYMm());
                }
            }
        }
        return best;
    }

    private boolean free(BitSet[] own, int x, int y) {
        for (int j = 0; j < own.length; j++) {
            BitSet mine = own[j];
            BitSet taken = used[y + j];
            for (int i = mine.nextSetBit(0); i >= 0; ) {
                int end = mine.nextClearBit(i);
                int hit = taken.nextSetBit(i + x);
                if (hit >= 0 && hit < end + x) {
                    return false;
                }
                i = mine.nextSetBit(end);
            }
        }
        return true;
    }
}

package foilproof.findings;

import foilproof.electrical.Chord;
import java.util.ArrayDeque;
import java.util.BitSet;

/**
 * Whether copper opens out on both sides of a neck, whichever way it goes on there. A trace that was meant runs on as narrow
 * as it leaves; a neck that was not meant opens at once.
 */
final class OpenNeck {
    /** Places asked across the room beside a neck. */
    private static final int MOST_PLACES = 160;

    private final CopperFacts copper;
    private final Chord neck;
    private final double placeMm;
    private final double x0Mm;
    private final double y0Mm;
    private final int side;
    private final int roomSquared;

    private OpenNeck(CopperFacts copper, Chord neck, double grooveMm) {
        this.copper = copper;
        this.neck = neck;
        // a disc twice as wide as the neck, in a corner that both grooves make
        double reach = grooveMm + 3.5 * neck.lengthMm();
        placeMm = Math.max(copper.field().cellMm(), 2 * reach / MOST_PLACES);
        side = 2 * (int) Math.ceil(reach / placeMm) + 1;
        x0Mm = neck.xMm() - side * placeMm / 2;
        y0Mm = neck.yMm() - side * placeMm / 2;
        double room = neck.lengthMm() / placeMm;
        roomSquared = (int) Math.ceil(room * room);
    }

    /**
     * Whether a disc twice as wide as the neck fits into the copper beside it, on both sides.
     *
     * @param grooveMm the width of the grooves that leave the neck
     */
    static boolean widens(CopperFacts copper, Chord neck, double grooveMm) {
        OpenNeck open = new OpenNeck(copper, neck, grooveMm);
        return open.widens(1) && open.widens(-1);
    }

    private boolean widens(int sign) {
        double l = Math.max(1e-9, neck.lengthMm());
        double off = l / 2 + 2 * placeMm;
        double px = neck.xMm() - sign * (neck.y1Mm() - neck.y0Mm()) / l * off;
        double py = neck.yMm() + sign * (neck.x1Mm() - neck.x0Mm()) / l * off;
        BitSet seen = new BitSet(side * side);
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        add(seen, queue, (int) ((px - x0Mm) / placeMm), (int) ((py - y0Mm) / placeMm));
        while (!queue.isEmpty()) {
            int i = queue.poll();
            add(seen, queue, i % side + 1, i / side);
            add(seen, queue, i % side - 1, i / side);
            add(seen, queue, i % side, i / side + 1);
            add(seen, queue, i % side, i / side - 1);
        }
        for (int i = seen.nextSetBit(0); i >= 0; i = seen.nextSetBit(i + 1)) {
            if (fits(seen, i % side, i / side)) {
                return true;
            }
        }
        return false;
    }

    private void add(BitSet seen, ArrayDeque<Integer> queue, int column, int row) {
        if (column < 0 || row < 0 || column >= side || row >= side || seen.get(row * side + column)) {
            return;
        }
        double px = x0Mm + (column + 0.5) * placeMm;
        double py = y0Mm + (row + 0.5) * placeMm;
        if (copper.map().pieceAt(px, py) >= 0 && distanceMm(px, py) > 0.75 * placeMm) {
            seen.set(row * side + column);
            queue.add(row * side + column);
        }
    }

    /** Distance of a place from the neck, mm; the neck is taken half as long again, as far as into the grooves. */
    private double distanceMm(double px, double py) {
        double dx = neck.x1Mm() - neck.x0Mm();
        double dy = neck.y1Mm() - neck.y0Mm();
        double l2 = Math.max(1e-12, dx * dx + dy * dy);
        double more = Math.max(0.5, placeMm / Math.sqrt(l2));
        double t = ((px - neck.x0Mm()) * dx + (py - neck.y0Mm()) * dy) / l2;
        t = Math.max(-more, Math.min(1 + more, t));
        return StrictMath.hypot(neck.x0Mm() + t * dx - px, neck.y0Mm() + t * dy - py);
    }

    private boolean fits(BitSet seen, int column, int row) {
        int room = (int) Math.sqrt(roomSquared);
        for (int v = -room; v <= room; v++) {
            for (int u = -room; u <= room; u++) {
                if (u * u + v * v <= roomSquared) {
                    int i = column + u;
                    int j = row + v;
                    if (i < 0 || j < 0 || i >= side || j >= side || !seen.get(j * side + i)) {
                        return false;
                    }
                }
            }
        }
        return true;
    }
}

package foilproof.app.viewer;

import java.util.Arrays;
import java.util.List;
import org.joml.FrustumIntersection;
import org.joml.Matrix4f;
import org.joml.Vector3f;

/**
 * Chooses the patches of the ground: squares of 32 x 32 quads, split until a quad covers few enough pixels, left whole
 * where no cutter went or where the picture does not reach.
 */
final class Patches {
    /** Quads along a patch's side. */
    static final int QUADS = 32;

    /** Quads along the side of a patch that no cutter reached: the blank's own bend is all that it shows. */
    static final int PLAIN_QUADS = 8;

    private static final int MOST = 6000;

    private final BoardSnapshot board;
    private final Camera camera;
    private final double quadPixels;
    private final double wallPixels;
    private final double pixelsPerMm;
    private final FrustumIntersection frustum;
    private final Vector3f eye;
    private final Batch cut = new Batch();
    private final Batch plain = new Batch();

    /** Patches that are drawn together: four floats each: x, y, size (mm), region. */
    static final class Batch {
        private float[] list = new float[4 * 256];
        private int count;

        private void add(double x, double y, double size, int region) {
            if (4 * count == list.length) {
                list = Arrays.copyOf(list, 2 * list.length);
            }
            list[4 * count] = (float) x;
            list[4 * count + 1] = (float) y;
            list[4 * count + 2] = (float) size;
            list[4 * count + 3] = region;
            count++;
        }

        int count() {
            return count;
        }

        float[] list() {
            return Arrays.copyOf(list, 4 * count);
        }
    }

    Patches(BoardSnapshot board, Camera camera, Matrix4f clipFromWorld, int height, Look look) {
        this.board = board;
        this.camera = camera;
        this.quadPixels = look.quadPixels();
        // While something moves there is no time for small quads.
        this.wallPixels = look.shade() ? quadPixels * 0.45 : quadPixels * 0.8;
        this.pixelsPerMm = camera.pixelsPerMm(height);
        this.frustum = new FrustumIntersection(clipFromWorld);
        this.eye = camera.eye();
    }

    /** Patches on which some cutter left its trace. */
    Batch cut() {
        return cut;
    }

    /** Patches that no cutter reached, drawn without looking for cuts. */
    Batch plain() {
        return plain;
    }

    /** Adds the patches of a box of the ground. */
    void add(double[] box, int region) {
        double size = Math.max(box[2] - box[0], box[3] - box[1]);
        double small = Math.max(1e-6, Math.min(box[2] - box[0], box[3] - box[1]));
        int parts = (int) Math.max(1, Math.min(16, Math.floor(size / small)));
        double part = size / parts;
        for (double x = box[0]; x < box[2] - 1e-9; x += part) {
            for (double y = box[1]; y < box[3] - 1e-9; y += part) {
                split(x, y, part, box, region, 0);
            }
        }
    }

    private void split(double x, double y, double size, double[] box, int region, int level) {
        double x1 = Math.min(x + size, box[2]);
        double y1 = Math.min(y + size, box[3]);
        if (x >= box[2] || y >= box[3] || cut.count >= MOST) {
            return;
        }
        double z = camera.zFactor();
        float lowest = (float) ((board.spoilTopMm() - board.spoilBoardMm()) * z);
        if (!frustum.testAab((float) x, (float) y, lowest, (float) x1, (float) y1, (float) (0.4 * z))) {
            return;
        }
        double quad = size / QUADS;
        double low = lowestIn(x - size * 0.02, y - size * 0.02, x1 + size * 0.02, y1 + size * 0.02);
        boolean uncut = low >= HeightTiles.UNCUT_MM / 2;
        boolean coarse = uncut && (region != 0 || level >= 2);
        double scale = scale(x, y, x1, y1);
        // Walls that are seen tall want small quads; elsewhere the pixels tell the shape by themselves.
        double relief = Math.max(0, -low) * z * scale * Math.cos(camera.elevationRad());
        // Cuts that stand lower than a pixel or two need no quads at all: every pixel looks its own height up. Deep
        // ones keep
        // theirs: a slack mesh would hang through the blank.
        double wanted = uncut || relief < 3 ? quadPixels : wallPixels;
        wanted = relief < 1.2 && -low < 0.3 ? 4 * quadPixels : wanted;
        if (coarse || quad * scale <= wanted || quad < 0.002) {
            (uncut ? plain : cut).add(x, y, size, region);
            return;
        }
        double half = size / 2;
        split(x, y, half, box, region, level + 1);
        split(x + half, y, half, box, region, level + 1);
        split(x, y + half, half, box, region, level + 1);
        split(x + half, y + half, half, box, region, level + 1);
    }

    private double scale(double x0, double y0, double x1, double y1) {
        if (camera.parallel()) {
            return pixelsPerMm;
        }
        double dx = Math.max(0, Math.max(x0 - eye.x, eye.x - x1));
        double dy = Math.max(0, Math.max(y0 - eye.y, eye.y - y1));
        double dz = eye.z;
        double d = Math.max(1e-3, Math.sqrt(dx * dx + dy * dy + dz * dz));
        return pixelsPerMm * camera.distanceMm() / d;
    }

    private double lowestIn(double x0, double y0, double x1, double y1) {
        return Math.min(lowestIn(board.runs(), x0, y0, x1, y1), lowestIn(board.farRuns(), x0, y0, x1, y1));
    }

    private static double lowestIn(List<BoardSnapshot.ToolRun> runs, double x0, double y0, double x1, double y1) {
        double low = HeightTiles.UNCUT_MM;
        for (BoardSnapshot.ToolRun r : runs) {
            double a0 = r.flipX() * (r.flipX() > 0 ? x0 : x1) + r.shiftXMm();
            double a1 = r.flipX() * (r.flipX() > 0 ? x1 : x0) + r.shiftXMm();
            double b0 = r.flipY() * (r.flipY() > 0 ? y0 : y1) + r.shiftYMm();
            double b1 = r.flipY() * (r.flipY() > 0 ? y1 : y0) + r.shiftYMm();
            low = Math.min(low, r.tiles().lowestIn(a0, b0, a1, b1) + r.z0Mm());
        }
        return low;
    }
}

package foilproof.app.viewer;

import org.joml.Matrix4f;
import org.joml.Vector3f;
import org.joml.Vector4f;
import org.jspecify.annotations.Nullable;

/**
 * Where the board is seen from. Azimuth 0 looks from the blank's lower edge (-Y); elevation 90 degrees looks straight
 * down, -90 straight up from below.
 *
 * @param xMm the point that is looked at, mm
 * @param yMm the point that is looked at, mm
 * @param zMm the point that is looked at, mm (not exaggerated)
 * @param azimuthRad turned to the right round the Z axis, radians
 * @param elevationRad above the board, radians, -pi/2 to pi/2
 * @param heightMm how much of the world fits between the picture's lower and upper edge at that point, mm
 * @param parallel true: no perspective
 * @param zFactor exaggeration of Z, 1 for none
 * @param turn how far the blank is turned over from how it lies, or null where it lies
 */
public record Camera(
        double xMm,
        double yMm,
        double zMm,
        double azimuthRad,
        double elevationRad,
        double heightMm,
        boolean parallel,
        double zFactor,
        @Nullable Turn turn) {
    /** A blank that lies. */
    public Camera(
            double xMm,
            double yMm,
            double zMm,
            double azimuthRad,
            double elevationRad,
            double heightMm,
            boolean parallel,
            double zFactor) {
        this(xMm, yMm, zMm, azimuthRad, elevationRad, heightMm, parallel, zFactor, null);
    }

    /**
     * A blank on its way over, seen by an eye that stays.
     *
     * @param aboutX about an axis along X, else along Y
     * @param turnRad how far, radians; pi lies on its other face
     * @param cxMm a point of the axis, mm
     * @param cyMm a point of the axis, mm
     * @param czMm a point of the axis, mm
     */
    public record Turn(boolean aboutX, double turnRad, double cxMm, double cyMm, double czMm) {
        /** World as it lies (Z exaggerated) to world as turned. */
        Matrix4f matrix(double zFactor) {
            float z = (float) (czMm * zFactor);
            Matrix4f m = new Matrix4f().translate((float) cxMm, (float) cyMm, z);
            m = aboutX ? m.rotateX((float) turnRad) : m.rotateY((float) turnRad);
            return m.translate((float) -cxMm, (float) -cyMm, -z);
        }
    }

    private static final double FIELD_RAD = Math.toRadians(28);
    /** Below this much of the board between the picture's edges cells are larger than any screen: 0.02 mm. */
    public static final double MIN_HEIGHT_MM = 0.02;
    /** The widest view, mm. */
    public static final double MAX_HEIGHT_MM = 2000;

    /** Looks straight down on the whole blank, without perspective. */
    public static Camera top(BoardSnapshot board, int width, int height) {
        return new Camera(
                board.widthMm() / 2, board.heightMm() / 2, 0, 0, Math.PI / 2, fit(board, width, height), true, 1);
    }

    /** Looks straight up at the blank's underside as if it had been turned about Y: X runs to the left. */
    public static Camera bottom(BoardSnapshot board, int width, int height) {
        Camera top = top(board, width, height);
        return new Camera(top.xMm, top.yMm, -board.thicknessMm(), Math.PI, -Math.PI / 2, top.heightMm, true, 1);
    }

    /** Looks from the front left, from above, with perspective. */
    public static Camera oblique(BoardSnapshot board, int width, int height) {
        Camera c = new Camera(
                board.widthMm() / 2,
                board.heightMm() / 2,
                -board.thicknessMm(),
                Math.toRadians(-20),
                Math.toRadians(44),
                fit(board, width, height),
                false,
                1);
        for (int i = 0; i < 4; i++) {
            c = c.fitted(board, width, height);
        }
        return c;
    }

    /** The same direction, moved so that the blank fills the picture but for a rim for words. */
    Camera fitted(BoardSnapshot board, int width, int height) {
        double[] box = {1e9, 1e9, -1e9, -1e9};
        for (int i = 0; i < 8; i++) {
            double[] p = project(
                    (i & 1) * board.widthMm(),
                    (i >> 1 & 1) * board.heightMm(),
                    (i >> 2) * board.spoilTopMm(),
                    width,
                    height);
            box[0] = Math.min(box[0], p[0]);
            box[1] = Math.min(box[1], p[1]);
            box[2] = Math.max(box[2], p[0]);
            box[3] = Math.max(box[3], p[1]);
        }
        double[] ray = ray((box[0] + box[2]) / 2, (box[1] + box[3]) / 2, width, height);
        double t = (zMm - ray[2]) / ray[5];
        double grow = Math.max((box[2] - box[0]) / (width * 0.86), (box[3] - box[1]) / (height * 0.76));
        return at(ray[0] + t * ray[3], ray[1] + t * ray[4], zMm).showing(heightMm * grow);
    }

    private static double fit(BoardSnapshot board, int width, int height) {
        double margin = 1.24;
        return Math.max(board.heightMm(), board.widthMm() * height / width) * margin;
    }

    /** The same view of another point. */
    public Camera at(double newXMm, double newYMm, double newZMm) {
        return new Camera(newXMm, newYMm, newZMm, azimuthRad, elevationRad, heightMm, parallel, zFactor, turn);
    }

    /** The same point seen larger or smaller. */
    public Camera showing(double newHeightMm) {
        double h = Math.max(MIN_HEIGHT_MM, Math.min(MAX_HEIGHT_MM, newHeightMm));
        return new Camera(xMm, yMm, zMm, azimuthRad, elevationRad, h, parallel, zFactor, turn);
    }

    /** The same point from another direction; elevation is kept within straight up and straight down. */
    public Camera turned(double newAzimuthRad, double newElevationRad) {
        double e = Math.max(-Math.PI / 2, Math.min(Math.PI / 2, newElevationRad));
        return new Camera(xMm, yMm, zMm, newAzimuthRad, e, heightMm, parallel, zFactor, turn);
    }

    /** The same view with or without perspective. */
    public Camera withParallel(boolean newParallel) {
        return new Camera(xMm, yMm, zMm, azimuthRad, elevationRad, heightMm, newParallel, zFactor, turn);
    }

    /** The same view with Z drawn larger. */
    public Camera withZFactor(double newFactor) {
        return new Camera(xMm, yMm, zMm, azimuthRad, elevationRad, heightMm, parallel, newFactor, turn);
    }

    /** The same view with the blank turned over by an angle about its own middle; 0 lays it down again. */
    public Camera turning(BoardSnapshot board, boolean aboutX, double turnRad) {
        Turn t = turnRad == 0
                ? null
                : new Turn(aboutX, turnRad, board.widthMm() / 2, board.heightMm() / 2, -board.thicknessMm() / 2);
        return new Camera(xMm, yMm, zMm, azimuthRad, elevationRad, heightMm, parallel, zFactor, t);
    }

    /** Whether the underside is looked at. */
    public boolean fromBelow() {
        return turn == null ? elevationRad < 0 : towardsEye().z < 0;
    }

    /** The room's upward direction in the world: where the light and the sky are. */
    Vector3f roomUp() {
        return back(new Vector3f(0, 0, elevationRad < 0 ? -1 : 1));
    }

    /**
     * Towards the light, which comes from the upper left of the picture however the board lies, so that grooves read as
     * grooves.
     */
    Vector3f towardsLight() {
        double a = azimuthRad + Math.toRadians(-225);
        double below = elevationRad < 0 ? -1 : 1;
        Vector3f key = new Vector3f((float) (Math.sin(a) * below), (float) -Math.cos(a), (float) (1.15 * below));
        return back(key.normalize());
    }

    private Vector3f back(Vector3f direction) {
        return turn == null ? direction : turn.matrix(zFactor).invertAffine().transformDirection(direction);
    }

    private Vector3f backPoint(Vector3f point) {
        return turn == null ? point : turn.matrix(zFactor).invertAffine().transformPosition(point);
    }

    /** Distance of the eye from the point, mm. */
    public double distanceMm() {
        return parallel ? Math.max(heightMm * 4, 400) : heightMm / 2 / Math.tan(FIELD_RAD / 2);
    }

    /** Unit vector from the point towards the eye. */
    public Vector3f towardsEye() {
        return back(still());
    }

    private Vector3f still() {
        double ce = Math.cos(elevationRad);
        return new Vector3f((float) (Math.sin(azimuthRad) * ce), (float) (-Math.cos(azimuthRad) * ce), (float)
                Math.sin(elevationRad));
    }

    /** The picture's upward direction in the world. */
    public Vector3f up() {
        return back(stillUp());
    }

    private Vector3f stillUp() {
        double se = Math.sin(elevationRad);
        return new Vector3f((float) (-Math.sin(azimuthRad) * se), (float) (Math.cos(azimuthRad) * se), (float)
                Math.cos(elevationRad));
    }

    /** The picture's rightward direction in the world. */
    public Vector3f right() {
        return back(new Vector3f((float) Math.cos(azimuthRad), (float) Math.sin(azimuthRad), 0));
    }

    /** The point that is looked at, mm, Z exaggerated. */
    public Vector3f target() {
        return backPoint(new Vector3f((float) xMm, (float) yMm, (float) (zMm * zFactor)));
    }

    /** The eye, mm, Z exaggerated. */
    public Vector3f eye() {
        return backPoint(stillEye());
    }

    private Vector3f stillEye() {
        return still().mul((float) distanceMm()).add((float) xMm, (float) yMm, (float) (zMm * zFactor));
    }

    /**
     * Clip coordinates from the world (x, y, z times zFactor).
     *
     * @param width picture, pixels
     * @param height picture, pixels
     * @param jitterX shift of the picture to the right, parts of a pixel
     * @param jitterY shift of the picture upwards, parts of a pixel
     * @param reachMm half the size of everything drawn, mm, to place the depth range
     */
    public Matrix4f clipFromWorld(int width, int height, double jitterX, double jitterY, double reachMm) {
        double d = distanceMm();
        double aspect = (double) width / height;
        Matrix4f m = new Matrix4f();
        m.translate((float) (2 * jitterX / width), (float) (2 * jitterY / height), 0);
        double offCentre = reachMm * 2 + 10;
        if (parallel) {
            float h = (float) (heightMm / 2);
            m.ortho((float) (-h * aspect), (float) (h * aspect), -h, h, (float) (d - offCentre), (float)
                    (d + offCentre));
        } else {
            double near = Math.max(d * 0.02, d - offCentre);
            m.perspective((float) FIELD_RAD, (float) aspect, (float) near, (float) (d + offCentre));
        }
        Vector3f eye = stillEye();
        Vector3f up = stillUp();
        m.lookAt(eye.x, eye.y, eye.z, (float) xMm, (float) yMm, (float) (zMm * zFactor), up.x, up.y, up.z);
        return turn == null ? m : m.mul(turn.matrix(zFactor));
    }

    /** Pixels per mm at the point that is looked at. */
    public double pixelsPerMm(int height) {
        return height / heightMm;
    }

    /** Where a point of the world falls in the picture: x, y in pixels from the upper left, z its depth (w &gt; 0 ahead). */
    public double[] project(double px, double py, double pz, int width, int height) {
        Vector4f v = clipFromWorld(width, height, 0, 0, 1000)
                .transform(new Vector4f((float) px, (float) py, (float) (pz * zFactor), 1));
        return new double[] {(v.x / v.w * 0.5 + 0.5) * width, (0.5 - v.y / v.w * 0.5) * height, v.w};
    }

    /** The line of sight through a pixel: start x, y, z and direction x, y, z, mm, Z not exaggerated. */
    public double[] ray(double pixelX, double pixelY, int width, int height) {
        double sx = (pixelX / width * 2 - 1) * heightMm / 2 * width / height;
        double sy = (1 - pixelY / height * 2) * heightMm / 2;
        Vector3f r = right();
        Vector3f u = up();
        Vector3f at = target();
        double ox = at.x + r.x * sx + u.x * sy;
        double oy = at.y + r.y * sx + u.y * sy;
        double oz = at.z + r.z * sx + u.z * sy;
        Vector3f to = towardsEye();
        double dx = -to.x;
        double dy = -to.y;
        double dz = -to.z;
        if (!parallel) {
            Vector3f e = eye();
            dx = ox - e.x;
            dy = oy - e.y;
            dz = oz - e.z;
            double n = Math.sqrt(dx * dx + dy * dy + dz * dz);
            dx /= n;
            dy /= n;
            dz /= n;
        }
        return new double[] {ox, oy, oz / zFactor, dx, dy, dz / zFactor};
    }

    /**
     * Where the line of sight through a pixel meets the composed board.
     *
     * @return x, y, z in mm, or an empty array where it meets nothing
     */
    public double[] pick(
            BoardSnapshot board, BoardSnapshot.Conditions c, double pixelX, double pixelY, int width, int height) {
        double[] ray = ray(pixelX, pixelY, width, height);
        if (Math.abs(ray[5]) < 1e-9) {
            return new double[0];
        }
        if (fromBelow()) {
            double t = (-board.thicknessMm() - ray[2]) / ray[5];
            return new double[] {ray[0] + t * ray[3], ray[1] + t * ray[4], -board.thicknessMm()};
        }
        double from = 0.5;
        double to = board.spoilTopMm() - 1;
        int steps = 400;
        double lastZ = from;
        for (int i = 0; i <= steps; i++) {
            double z = from + (to - from) * i / steps;
            double t = (z - ray[2]) / ray[5];
            double x = ray[0] + t * ray[3];
            double y = ray[1] + t * ray[4];
            if (board.spot(c, x, y).zMm() >= z) {
                double above = lastZ;
                double below = z;
                for (int k = 0; k < 24; k++) {
                    double mid = (above + below) / 2;
                    double tm = (mid - ray[2]) / ray[5];
                    if (board.spot(c, ray[0] + tm * ray[3], ray[1] + tm * ray[4])
                                    .zMm()
                            >= mid) {
                        below = mid;
                    } else {
                        above = mid;
                    }
                }
                double tb = (below - ray[2]) / ray[5];
                return new double[] {ray[0] + tb * ray[3], ray[1] + tb * ray[4], below};
            }
            lastZ = z;
        }
        return new double[0];
    }
}

package foilproof.motion;

import foilproof.bench.Machine;
import java.util.Arrays;

/**
 * The way that a rapid takes on a controller that does not coordinate its axes: each axis runs at its own full speed
 * until it is there, so that the path is a chain of up to three straight pieces (needs.md A8).
 */
public final class Dogleg {
    private Dogleg() {}

    /**
     * The corners of the way, first and last included.
     *
     * @param segments the moves
     * @param i a rapid
     * @param rapids the axes' rapid speeds
     * @return one row X, Y, Z for each corner, in mm as in {@code segments}
     */
    public static double[][] corners(Segments segments, int i, Machine.AxisFeeds rapids) {
        double[] from = {segments.x0Mm(i), segments.y0Mm(i), segments.z0Mm(i)};
        double[] to = {segments.x1Mm(i), segments.y1Mm(i), segments.z1Mm(i)};
        double[] speed = {rapids.xMmPerMin(), rapids.yMmPerMin(), rapids.zMmPerMin()};
        double[] arrive = new double[3];
        for (int axis = 0; axis < 3; axis++) {
            arrive[axis] = Math.abs(to[axis] - from[axis]) / speed[axis];
        }
        double[] moments = arrive.clone();
        Arrays.sort(moments);
        double[][] corners = new double[4][];
        corners[0] = from;
        int count = 1;
        double last = 0;
        for (double moment : moments) {
            if (moment <= last) {
                continue;
            }
            double[] point = new double[3];
            for (int axis = 0; axis < 3; axis++) {
                point[axis] = moment >= arrive[axis]
                        ? to[axis]
                        : from[axis] + (to[axis] - from[axis]) * (moment / arrive[axis]);
            }
            corners[count++] = point;
            last = moment;
        }
        return Arrays.copyOf(corners, count);
    }
}

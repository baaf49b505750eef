package foilproof.bench;

import java.util.List;

/**
 * The foil top as it lies: flat, or touched points with the meaning that the job file gives them (linear on their
 * Delaunay triangles, of four points on one circle the diagonal that rises to the right, nearest edge outside, a
 * plane for three). The underside stays on the spoil board.
 *
 * @param touches empty where flat; else at least three points, not on one line, no place twice, in the job's order
 */
public record Surface(List<Touch> touches) {
    /** The foil top lies at its nominal height everywhere. */
    public static final Surface FLAT = new Surface(List.of());

    public Surface {
        touches = List.copyOf(touches);
    }

    /** Whether the surface was said to be flat. */
    public boolean flat() {
        return touches.isEmpty();
    }
}

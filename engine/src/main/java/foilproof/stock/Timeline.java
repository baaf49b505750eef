package foilproof.stock;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * One tool run at any moment: keyframes that share their tiles, and a few sweeps from the one before. Tiles are copied
 * only where moves after a keyframe change them. Safe to ask from several threads.
 */
public final class Timeline {
    /** Keyframes of a run unless a caller says otherwise: a sixteenth of a run sweeps within a frame or two. */
    public static final int KEYFRAMES = 16;

    private final Envelope envelope;
    private final int[] firstMove;
    private final @Nullable HeightTiles[] keyframe;

    private Timeline(Envelope envelope, int[] firstMove) {
        this.envelope = envelope;
        this.firstMove = firstMove;
        this.keyframe = new HeightTiles[firstMove.length];
        HeightTiles map = null;
        int from = 0;
        for (int k = 0; k < firstMove.length; k++) {
            map = envelope.after(map, from, firstMove[k]);
            from = firstMove[k];
            keyframe[k] = map;
        }
    }

    /**
     * Sweeps a run once more, keeping keyframes: at its start and after equal shares of its moves.
     *
     * @param keyframes how many, at least 1
     */
    public static Timeline of(Envelope envelope, int keyframes) {
        int count = Math.max(1, keyframes);
        int[] first = new int[count];
        for (int k = 0; k < count; k++) {
            first[k] = (int) ((long) envelope.path().size() * k / count);
        }
        return new Timeline(envelope, Arrays.stream(first).distinct().toArray());
    }

    /** The whole run. */
    public Envelope envelope() {
        return envelope;
    }

    /**
     * The run as it is at a moment: moves that have ended whole, the one under way up to the moment, at even speed.
     *
     * @param timeS seconds since the job's start; before the run nothing is cut, after it all is
     */
    public Envelope at(double timeS) {
        CutPath path = envelope.path();
        if (path.size() == 0 || path.endS(path.size() - 1) <= timeS) {
            return envelope;
        }
        int begun = path.begunAt(timeS);
        int k = firstMove.length - 1;
        while (k > 0 && firstMove[k] >= begun) {
            k--;
        }
        return envelope.at(keyframe[k], firstMove[k], timeS);
    }
}

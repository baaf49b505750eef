package foilproof.app.viewer;

import static org.lwjgl.opengl.GL33C.*;

import java.nio.FloatBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.lwjgl.system.MemoryUtil;

/** Hands a snapshot and its conditions to the composing shader: all that a moved slider changes is in here. */
final class SurfaceUniforms {
    /** Most tool runs in one picture; the same number stands in compose.glsl. */
    static final int MAX_RUNS = 64;

    private int surfaceTexture;
    private BoardSnapshot.@org.jspecify.annotations.Nullable Surface uploaded;

    /** The runs of both faces in the order that the shader knows them. */
    static List<BoardSnapshot.ToolRun> allRuns(BoardSnapshot board) throws GraphicsException {
        List<BoardSnapshot.ToolRun> all = new ArrayList<>(board.runs());
        all.addAll(board.farRuns());
        if (all.size() > MAX_RUNS) {
            throw new GraphicsException(
                    "the job has " + all.size() + " tool runs; a picture holds " + MAX_RUNS + " at most");
        }
        return all;
    }

    void set(GlProgram program, BoardSnapshot board, BoardSnapshot.Conditions conditions, TileAtlas atlas)
            throws GraphicsException {
        List<BoardSnapshot.ToolRun> runs = allRuns(board);
        int n = Math.max(1, runs.size());
        float[] origin = new float[4 * n];
        int[] page = new int[4 * n];
        float[] from = new float[4 * n];
        int[] all = new int[4 * n];
        for (int k = 0; k < runs.size(); k++) {
            BoardSnapshot.ToolRun r = runs.get(k);
            boolean here = k < board.runs().size();
            double shift = here ? board.runShiftMm(conditions, k) - r.z0Mm() : 0;
            boolean absent = here && conditions.isAbsent(k);
            origin[4 * k] = (float) r.tiles().x0Mm();
            origin[4 * k + 1] = (float) r.tiles().y0Mm();
            origin[4 * k + 2] = (float) (1 / r.tiles().cellMm());
            origin[4 * k + 3] = (float) shift;
            page[4 * k] = atlas.firstRow(k);
            page[4 * k + 1] = absent ? 0 : r.tiles().columns();
            page[4 * k + 2] = absent ? 0 : r.tiles().rows();
            all[4 * k] = page[4 * k];
            all[4 * k + 1] = r.tiles().columns();
            all[4 * k + 2] = r.tiles().rows();
            all[4 * k + 3] = Integer.numberOfTrailingZeros(r.tiles().tileCells());
            page[4 * k + 3] = Integer.numberOfTrailingZeros(r.tiles().tileCells());
            from[4 * k] = r.flipX();
            from[4 * k + 1] = (float) r.shiftXMm();
            from[4 * k + 2] = r.flipY();
            from[4 * k + 3] = (float) r.shiftYMm();
        }
        program.setVectors("runOrigin[0]", origin);
        program.setVectors("runPage[0]", page);
        program.setVectors("runFrom[0]", from);
        program.setVectors("allPage[0]", all);
        program.set("topRuns", board.runs().size());
        program.set("runCount", runs.size());
        program.set("heightCode", atlas.lowestMm(), 65535 * TileAtlas.STEP_MM);
        program.set("slotSize", atlas.pitch(), 1.0 / Math.max(1, atlas.layerCells()));
        program.set("bow", conditions.bowMm(), 2 / board.widthMm(), 2 / board.heightMm(), 0);
        program.set("zLayers", board.thicknessMm(), conditions.foilMm(), board.tapeMm(), board.spoilTopMm());
        surface(board.surface());
        BoardSnapshot.Surface s = board.surface();
        program.set("surfaceFrame", s.x0Mm(), s.y0Mm(), 1 / s.stepXMm(), 1 / s.stepYMm());
        program.set("heightAtlas", 0);
        program.set("pageTable", 1);
        program.set("surfaceMap", 2);
        glActiveTexture(GL_TEXTURE0);
        glBindTexture(GL_TEXTURE_2D_ARRAY, atlas.texture());
        glActiveTexture(GL_TEXTURE1);
        glBindTexture(GL_TEXTURE_2D, atlas.pageTexture());
        glActiveTexture(GL_TEXTURE2);
        glBindTexture(GL_TEXTURE_2D, surfaceTexture);
        program.set("coarseAtlas", 6);
        glActiveTexture(GL_TEXTURE6);
        glBindTexture(GL_TEXTURE_2D_ARRAY, atlas.coarseTexture());
        glActiveTexture(GL_TEXTURE0);
    }

    /** The conditions that a difference is taken from. */
    static void setBase(
            GlProgram program, BoardSnapshot board, BoardSnapshot.Conditions now, BoardSnapshot.Conditions base) {
        int n = Math.max(1, board.runs().size());
        float[] shift = new float[n];
        int[] present = new int[n];
        for (int k = 0; k < board.runs().size(); k++) {
            shift[k] = (float) (board.runShiftMm(base, k) - board.runs().get(k).z0Mm());
            present[k] = base.isAbsent(k) ? 0 : 1;
        }
        program.setFloats("baseShift[0]", shift);
        program.setInts("basePresent[0]", present);
        program.set("baseLayers", base.foilMm(), base.bowMm(), 0, 0);
    }

    private void surface(BoardSnapshot.Surface s) {
        if (s == uploaded) {
            return;
        }
        if (surfaceTexture == 0) {
            surfaceTexture = glGenTextures();
        }
        glActiveTexture(GL_TEXTURE2);
        glBindTexture(GL_TEXTURE_2D, surfaceTexture);
        FloatBuffer heights = MemoryUtil.memAllocFloat(s.heightsMm().length);
        heights.put(0, Arrays.copyOf(s.heightsMm(), s.heightsMm().length));
        glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
        glTexImage2D(GL_TEXTURE_2D, 0, GL_R32F, s.columns(), s.rows(), 0, GL_RED, GL_FLOAT, heights);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
        MemoryUtil.memFree(heights);
        uploaded = s;
    }

    void delete() {
        if (surfaceTexture != 0) {
            glDeleteTextures(surfaceTexture);
        }
    }
}

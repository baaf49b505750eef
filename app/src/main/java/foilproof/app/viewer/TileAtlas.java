package foilproof.app.viewer;

import static org.lwjgl.opengl.GL33C.*;

import java.nio.IntBuffer;
import java.nio.ShortBuffer;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lwjgl.system.MemoryUtil;

/**
 * Height tiles on the graphics side: one array texture of 16-bit heights in steps of 0.5 um, and the page tables that
 * lead from each run's tiles to their slots. A tile is uploaded once, the first time that it is met; while a person
 * scrubs, only tiles that changed travel. When space is short, tiles that the picture does not need give way.
 */
final class TileAtlas {
    /** Step of the stored heights, mm. V walls rise 3.7 um per um across, so finer steps would buy nothing. */
    static final double STEP_MM = 0.0005;

    private static final int BYTES_PER_LAYER_CELL = 2;

    /**
     * What a slot holds: a tile, and the neighbours whose first column, first row and first cell it carries along, so
     * that one filtered look is right up to its edge.
     */
    private record Key(
            HeightTiles.Tile tile,
            HeightTiles.@Nullable Tile right,
            HeightTiles.@Nullable Tile up,
            HeightTiles.@Nullable Tile diagonal,
            double z0Mm) {
        static Key of(HeightTiles t, int c, int r, double z0Mm) {
            boolean inner = c + 1 < t.columns();
            boolean lower = r + 1 < t.rows();
            return new Key(
                    Objects.requireNonNull(t.tile(c, r)),
                    inner ? t.tile(c + 1, r) : null,
                    lower ? t.tile(c, r + 1) : null,
                    inner && lower ? t.tile(c + 1, r + 1) : null,
                    z0Mm);
        }
    }

    /** Cells along a block of the coarse levels. */
    static final int BLOCK = 8;

    private int texture;
    private int coarseTexture;
    private int pageTexture;
    private int layerCells;
    private int layers;
    private int tileCells;
    private double topMm = Double.NaN;
    private final Map<Key, Integer> slots = new HashMap<>();
    private final ArrayDeque<Integer> free = new ArrayDeque<>();
    private int[] firstRows = new int[0];
    private List<BoardSnapshot.ToolRun> current = List.of();
    private ShortBuffer staging = MemoryUtil.memAllocShort(1);
    private float[] heights = new float[1];
    private long uploadedTiles;

    /** Highest storable height, mm: stands for "no cutter came here". */
    double topMm() {
        return topMm;
    }

    /** Height of texel 0, mm. */
    double lowestMm() {
        return topMm - 65535 * STEP_MM;
    }

    /** Cells from slot to slot: a tile and the neighbours' first column or row. */
    int pitch() {
        return tileCells + 1;
    }

    private int across() {
        return Math.min(256, Math.max(1, layerCells / pitch()));
    }

    int layerCells() {
        return layerCells;
    }

    int texture() {
        return texture;
    }

    int coarseTexture() {
        return coarseTexture;
    }

    /** Blocks along a tile at the finest of the coarse levels. */
    int coarseSide() {
        return Math.max(1, tileCells / BLOCK);
    }

    /** The coarse level whose blocks are about as large as a pixel. */
    int coarseLevel(double pixelMm, double cellMm) {
        double blocks = Math.max(1, pixelMm / (cellMm * BLOCK));
        int most = Integer.numberOfTrailingZeros(coarseSide());
        return Math.min(most, (int) Math.floor(Math.log(blocks) / Math.log(2) + 0.3));
    }

    int pageTexture() {
        return pageTexture;
    }

    int firstRow(int run) {
        return firstRows[run];
    }

    /** Tiles that travelled since the atlas was made. */
    long uploadedTiles() {
        return uploadedTiles;
    }

    /** Bytes held by the heights on the graphics side. */
    long bytes() {
        return (long) layers * layerCells * layerCells * BYTES_PER_LAYER_CELL;
    }

    /**
     * Makes all tiles of these runs available and their page tables current.
     *
     * @throws GraphicsException where the tiles do not fit into the graphics memory's limits
     */
    void show(List<BoardSnapshot.ToolRun> runs, double headroomMm) throws GraphicsException {
        if (topMm == headroomMm && same(runs)) {
            return;
        }
        int cells = runs.isEmpty() ? 64 : runs.get(0).tiles().tileCells();
        for (BoardSnapshot.ToolRun r : runs) {
            if (r.tiles().tileCells() != cells) {
                throw new GraphicsException("tool runs with tiles of " + cells + " and of "
                        + r.tiles().tileCells() + " cells cannot be drawn together");
            }
        }
        if (cells != tileCells || headroomMm != topMm) {
            forgetAll();
            tileCells = cells;
            topMm = headroomMm;
        }
        List<Key> wanted = keys(runs);
        List<Key> missing = missing(wanted);
        if (missing.size() > free.size()) {
            evictAllBut(wanted);
        }
        if (missing.size() > free.size()) {
            int needed = slots.size() + missing.size();
            allocate(needed + needed / 4 + 8);
            missing = missing(wanted);
        }
        for (Key key : missing) {
            upload(key);
        }
        writePages(runs);
        current = List.copyOf(runs);
    }

    private boolean same(List<BoardSnapshot.ToolRun> runs) {
        if (runs.size() != current.size() || texture == 0) {
            return false;
        }
        for (int i = 0; i < runs.size(); i++) {
            if (runs.get(i).tiles() != current.get(i).tiles()
                    || runs.get(i).z0Mm() != current.get(i).z0Mm()) {
                return false;
            }
        }
        return true;
    }

    private static List<Key> keys(List<BoardSnapshot.ToolRun> runs) {
        List<Key> all = new ArrayList<>();
        for (BoardSnapshot.ToolRun run : runs) {
            HeightTiles t = run.tiles();
            for (int r = 0; r < t.rows(); r++) {
                for (int c = 0; c < t.columns(); c++) {
                    if (t.tile(c, r) != null) {
                        all.add(Key.of(t, c, r, run.z0Mm()));
                    }
                }
            }
        }
        return all;
    }

    private List<Key> missing(List<Key> wanted) {
        Set<Key> missing = new LinkedHashSet<>();
        for (Key k : wanted) {
            if (!slots.containsKey(k)) {
                missing.add(k);
            }
        }
        return new ArrayList<>(missing);
    }

    private void evictAllBut(List<Key> wanted) {
        Set<Key> used = new HashSet<>(wanted);
        slots.entrySet().removeIf(e -> {
            if (used.contains(e.getKey())) {
                return false;
            }
            free.add(e.getValue());
            return true;
        });
    }

    private void forgetAll() {
        slots.clear();
        free.clear();
        if (texture != 0) {
            glDeleteTextures(texture);
            glDeleteTextures(coarseTexture);
            texture = 0;
        }
        layers = 0;
        current = List.of();
    }

    private void allocate(int slotsWanted) throws GraphicsException {
        int most = Math.min(2048, glGetInteger(GL_MAX_TEXTURE_SIZE));
        int cells = tileCells;
        forgetAll();
        tileCells = cells;
        layerCells = Math.max(pitch(), 256);
        while (layerCells < most && (long) across() * across() < slotsWanted) {
            layerCells *= 2;
        }
        int perLayer = across() * across();
        layers = (slotsWanted + perLayer - 1) / perLayer;
        if (layers > glGetInteger(GL_MAX_ARRAY_TEXTURE_LAYERS)) {
            throw new GraphicsException("the board needs " + slotsWanted + " tiles, more than the graphics can hold; "
                    + "use a larger --cell");
        }
        texture = glGenTextures();
        glBindTexture(GL_TEXTURE_2D_ARRAY, texture);
        glTexImage3D(GL_TEXTURE_2D_ARRAY, 0, GL_R16, layerCells, layerCells, layers, 0, GL_RED, GL_UNSIGNED_SHORT, 0L);
        if (glGetError() == GL_OUT_OF_MEMORY) {
            throw new GraphicsException("the graphics has no " + bytes() / 1_000_000 + " MB for the board's heights; "
                    + "use a larger --cell");
        }
        glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
        glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
        glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
        glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
        allocateCoarse();
        for (int i = 0; i < layers * perLayer; i++) {
            free.add(i);
        }
    }

    private void allocateCoarse() {
        coarseTexture = glGenTextures();
        glBindTexture(GL_TEXTURE_2D_ARRAY, coarseTexture);
        int side = across() * coarseSide();
        int level = 0;
        for (int s = coarseSide(); s >= 1; s /= 2) {
            glTexImage3D(
                    GL_TEXTURE_2D_ARRAY,
                    level,
                    GL_RG16,
                    Math.max(1, side >> level),
                    Math.max(1, side >> level),
                    layers,
                    0,
                    GL_RG,
                    GL_UNSIGNED_SHORT,
                    0L);
            level++;
        }
        glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_MAX_LEVEL, level - 1);
        glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_MIN_FILTER, GL_NEAREST_MIPMAP_NEAREST);
        glTexParameteri(GL_TEXTURE_2D_ARRAY, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    }

    /** The blocks of a tile: lowest height, and the share of cells below half of that depth; then their mip levels. */
    private void uploadCoarse(int slotX, int slotY, int layer) {
        int n = coarseSide();
        int p = pitch();
        int[] low = new int[n * n];
        int[] share = new int[n * n];
        double zero = -lowestMm() / STEP_MM;
        for (int by = 0; by < n; by++) {
            for (int bx = 0; bx < n; bx++) {
                block(by * n + bx, bx, by, p, zero, low, share);
            }
        }
        glBindTexture(GL_TEXTURE_2D_ARRAY, coarseTexture);
        ShortBuffer texels = MemoryUtil.memAllocShort(2 * n * n);
        int level = 0;
        for (int side = n; side >= 1; side /= 2) {
            for (int i = 0; i < side * side; i++) {
                texels.put(2 * i, (short) low[i]);
                texels.put(2 * i + 1, (short) share[i]);
            }
            glTexSubImage3D(
                    GL_TEXTURE_2D_ARRAY,
                    level++,
                    slotX * side,
                    slotY * side,
                    layer,
                    side,
                    side,
                    1,
                    GL_RG,
                    GL_UNSIGNED_SHORT,
                    texels);
            halve(low, share, side);
        }
        MemoryUtil.memFree(texels);
    }

    private void block(int at, int bx, int by, int p, double zero, int[] low, int[] share) {
        int least = 65535;
        int cells = Math.min(BLOCK, tileCells);
        for (int y = 0; y < cells; y++) {
            for (int x = 0; x < cells; x++) {
                least = Math.min(least, staging.get((by * BLOCK + y) * p + bx * BLOCK + x) & 0xFFFF);
            }
        }
        double half = least < zero ? (least + zero) / 2 : 65535;
        int below = 0;
        for (int y = 0; y < cells; y++) {
            for (int x = 0; x < cells; x++) {
                below += (staging.get((by * BLOCK + y) * p + bx * BLOCK + x) & 0xFFFF) <= half ? 1 : 0;
            }
        }
        low[at] = least;
        share[at] = least >= 65535 ? 0 : below * 65535 / (cells * cells);
    }

    private static void halve(int[] low, int[] share, int side) {
        int half = side / 2;
        for (int y = 0; y < half; y++) {
            for (int x = 0; x < half; x++) {
                int a = 2 * y * side + 2 * x;
                int b = a + side;
                int least = Math.min(Math.min(low[a], low[a + 1]), Math.min(low[b], low[b + 1]));
                int mean = (share[a] + share[a + 1] + share[b] + share[b + 1]) / 4;
                low[y * half + x] = least;
                share[y * half + x] = mean;
            }
        }
    }

    private void upload(Key key) {
        int p = pitch();
        if (staging.capacity() < p * p) {
            MemoryUtil.memFree(staging);
            staging = MemoryUtil.memAllocShort(p * p);
            heights = new float[tileCells * tileCells];
        }
        key.tile().copyTo(heights);
        int n = tileCells;
        for (int y = 0; y < n; y++) {
            for (int x = 0; x < n; x++) {
                staging.put(y * p + x, encoded(heights[y * n + x], key.z0Mm()));
            }
            staging.put(y * p + n, border(key.right(), y * n, key.z0Mm()));
        }
        for (int x = 0; x < n; x++) {
            staging.put(n * p + x, border(key.up(), x, key.z0Mm()));
        }
        staging.put(n * p + n, border(key.diagonal(), 0, key.z0Mm()));
        int slot = free.remove();
        int across = across();
        int layer = slot / (across * across);
        int y = slot / across % across * p;
        int x = slot % across * p;
        glBindTexture(GL_TEXTURE_2D_ARRAY, texture);
        glPixelStorei(GL_UNPACK_ALIGNMENT, 2);
        glTexSubImage3D(GL_TEXTURE_2D_ARRAY, 0, x, y, layer, p, p, 1, GL_RED, GL_UNSIGNED_SHORT, staging);
        uploadCoarse(slot % across, slot / across % across, layer);
        slots.put(key, slot);
        uploadedTiles++;
    }

    private short border(HeightTiles.@Nullable Tile tile, int index, double z0Mm) {
        return tile == null ? (short) 65535 : encoded(tile.heightMm(index), z0Mm);
    }

    private short encoded(float heightMm, double z0Mm) {
        // Half a step below the headroom counts as its top: envelopes store their cap as a float.
        double v = (heightMm + z0Mm - lowestMm()) * (1 / STEP_MM) + 0.5001;
        return (short) (int) Math.max(0, Math.min(65535, v));
    }

    private void writePages(List<BoardSnapshot.ToolRun> runs) {
        int width = 1;
        int height = 0;
        firstRows = new int[runs.size()];
        for (int k = 0; k < runs.size(); k++) {
            firstRows[k] = height;
            width = Math.max(width, runs.get(k).tiles().columns());
            height += runs.get(k).tiles().rows();
        }
        height = Math.max(1, height);
        IntBuffer pages = MemoryUtil.memCallocInt(width * height);
        int across = across();
        for (int k = 0; k < runs.size(); k++) {
            HeightTiles t = runs.get(k).tiles();
            for (int r = 0; r < t.rows(); r++) {
                for (int c = 0; c < t.columns(); c++) {
                    if (t.tile(c, r) != null) {
                        int slot =
                                slots.getOrDefault(Key.of(t, c, r, runs.get(k).z0Mm()), 0);
                        int page = slot % across | slot / across % across << 8 | slot / (across * across) << 16;
                        pages.put((firstRows[k] + r) * width + c, page | 0x80000000);
                    }
                }
            }
        }
        if (pageTexture == 0) {
            pageTexture = glGenTextures();
        }
        glBindTexture(GL_TEXTURE_2D, pageTexture);
        glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
        glTexImage2D(GL_TEXTURE_2D, 0, GL_R32UI, width, height, 0, GL_RED_INTEGER, GL_UNSIGNED_INT, pages);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
        MemoryUtil.memFree(pages);
    }

    void delete() {
        forgetAll();
        if (pageTexture != 0) {
            glDeleteTextures(pageTexture);
            pageTexture = 0;
        }
        MemoryUtil.memFree(staging);
    }
}

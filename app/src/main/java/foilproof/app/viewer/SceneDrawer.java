package foilproof.app.viewer;

import static org.lwjgl.opengl.GL33C.*;

import java.nio.ByteBuffer;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import org.joml.Matrix4f;
import org.joml.Vector3f;
import org.jspecify.annotations.Nullable;
import org.lwjgl.system.MemoryUtil;

/** All drawing of one picture; lives on the drawing thread. */
final class SceneDrawer {
    private final Map<String, GlProgram> surfaces = new HashMap<>();
    private final GlProgram solid;
    private final GlProgram background;
    private final GlProgram sum;
    private final TileAtlas atlas = new TileAtlas();
    private final SurfaceUniforms uniforms = new SurfaceUniforms();
    private final FieldTexture fieldTexture = new FieldTexture();
    private final FieldTexture highlightTexture = new FieldTexture();
    private final int emptyArray;
    private final int patchArray;
    private final int plainArray;
    private final int patchList;
    private final int plainList;
    private final int noise;
    private final int patchCorners;
    private final int stripArray;
    private final int stripCorners;
    private final int solidArray;
    private final int solidCorners;
    private int frameBuffer;
    private int frameColour;
    private int frameDepth;
    private int sumBuffer;
    private int sumColour;
    private int width;
    private int height;
    private ByteBuffer pixels = MemoryUtil.memAlloc(4);

    SceneDrawer() throws GraphicsException {
        solid = new GlProgram("solid.vert", "solid.frag");
        background = new GlProgram("full.vert", "background.frag");
        sum = new GlProgram("full.vert", "sum.frag");
        emptyArray = glGenVertexArrays();
        patchArray = glGenVertexArrays();
        plainArray = glGenVertexArrays();
        patchList = glGenBuffers();
        plainList = glGenBuffers();
        noise = NoiseTexture.make();
        patchCorners = glGenBuffers();
        stripArray = glGenVertexArrays();
        stripCorners = glGenBuffers();
        solidArray = glGenVertexArrays();
        solidCorners = glGenBuffers();
        makePatchMesh(patchArray, patchCorners, Patches.QUADS);
        makePatchMesh(plainArray, glGenBuffers(), Patches.PLAIN_QUADS);
        makeStripMesh();
        makeSolidArray();
    }

    String driverWords() {
        return glGetString(GL_RENDERER) + ", OpenGL " + glGetString(GL_VERSION);
    }

    private void makePatchMesh(int array, int buffer, int n) {
        // A ring more on every side: the skirt, which hangs down and hides cracks between patches of unequal size.
        int side = n + 3;
        float[] corners = new float[3 * side * side];
        for (int j = 0; j < side; j++) {
            for (int i = 0; i < side; i++) {
                int at = 3 * (j * side + i);
                corners[at] = Math.max(0, Math.min(n, i - 1)) / (float) n;
                corners[at + 1] = Math.max(0, Math.min(n, j - 1)) / (float) n;
                corners[at + 2] = i == 0 || j == 0 || i == side - 1 || j == side - 1 ? 1 : 0;
            }
        }
        int[] order = new int[6 * (side - 1) * (side - 1)];
        int k = 0;
        for (int j = 0; j + 1 < side; j++) {
            for (int i = 0; i + 1 < side; i++) {
                int a = j * side + i;
                for (int v : new int[] {a, a + 1, a + side + 1, a, a + side + 1, a + side}) {
                    order[k++] = v;
                }
            }
        }
        glBindVertexArray(array);
        glBindBuffer(GL_ARRAY_BUFFER, buffer);
        glBufferData(GL_ARRAY_BUFFER, corners, GL_STATIC_DRAW);
        glEnableVertexAttribArray(0);
        glVertexAttribPointer(0, 3, GL_FLOAT, false, 12, 0);
        glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, glGenBuffers());
        glBufferData(GL_ELEMENT_ARRAY_BUFFER, order, GL_STATIC_DRAW);
        bindPatchList(patchList);
    }

    private static void bindPatchList(int buffer) {
        glBindBuffer(GL_ARRAY_BUFFER, buffer);
        glEnableVertexAttribArray(1);
        glVertexAttribPointer(1, 4, GL_FLOAT, false, 16, 0);
        glVertexAttribDivisor(1, 1);
    }

    private static final int STRIP_PARTS = 200;

    private void makeStripMesh() {
        float[] corners = new float[3 * 2 * (STRIP_PARTS + 1)];
        for (int i = 0; i <= STRIP_PARTS; i++) {
            corners[6 * i] = i / (float) STRIP_PARTS;
            corners[6 * i + 3] = i / (float) STRIP_PARTS;
            corners[6 * i + 4] = 1;
        }
        glBindVertexArray(stripArray);
        glBindBuffer(GL_ARRAY_BUFFER, stripCorners);
        glBufferData(GL_ARRAY_BUFFER, corners, GL_STATIC_DRAW);
        glEnableVertexAttribArray(0);
        glVertexAttribPointer(0, 3, GL_FLOAT, false, 12, 0);
        bindPatchList(patchList);
    }

    private void makeSolidArray() {
        glBindVertexArray(solidArray);
        glBindBuffer(GL_ARRAY_BUFFER, solidCorners);
        int stride = Solids.STRIDE * 4;
        for (int i = 0; i < 3; i++) {
            glEnableVertexAttribArray(i);
            glVertexAttribPointer(i, i == 2 ? 4 : 3, GL_FLOAT, false, stride, i * 12L);
        }
    }

    private void resize(int w, int h) throws GraphicsException {
        if (w == width && h == height) {
            return;
        }
        int most = glGetInteger(GL_MAX_RENDERBUFFER_SIZE);
        if (w < 1 || h < 1 || w > most || h > most) {
            throw new GraphicsException("a picture of " + w + " x " + h + " pixels: 1 x 1 to " + most + " x " + most
                    + " can be drawn here");
        }
        deleteBuffers();
        frameColour = texture(GL_RGBA8, w, h);
        frameDepth = glGenRenderbuffers();
        glBindRenderbuffer(GL_RENDERBUFFER, frameDepth);
        glRenderbufferStorage(GL_RENDERBUFFER, GL_DEPTH_COMPONENT32F, w, h);
        frameBuffer = frameBuffer(frameColour);
        glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, frameDepth);
        sumColour = texture(GL_RGBA16F, w, h);
        sumBuffer = frameBuffer(sumColour);
        if (glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE) {
            throw new GraphicsException("the graphics cannot draw into memory at " + w + " x " + h);
        }
        MemoryUtil.memFree(pixels);
        pixels = MemoryUtil.memAlloc(4 * w * h);
        width = w;
        height = h;
    }

    private static int texture(int format, int w, int h) {
        int t = glGenTextures();
        glBindTexture(GL_TEXTURE_2D, t);
        glTexImage2D(GL_TEXTURE_2D, 0, format, w, h, 0, GL_RGBA, GL_UNSIGNED_BYTE, 0L);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
        return t;
    }

    private static int frameBuffer(int colour) {
        int f = glGenFramebuffers();
        glBindFramebuffer(GL_FRAMEBUFFER, f);
        glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, colour, 0);
        return f;
    }

    Frame draw(OffscreenRenderer.Request q, BooleanSupplier overtaken) throws GraphicsException {
        long began = System.nanoTime();
        resize(q.width(), q.height());
        atlas.show(SurfaceUniforms.allRuns(q.board()), q.board().headroomMm());
        int samples = Math.max(1, q.look().samples());
        double reach = reachMm(q.board()) * Math.max(1, 0.2 * q.camera().zFactor());
        Matrix4f middle = q.camera().clipFromWorld(width, height, 0, 0, reach);
        Prepared prepared = prepare(q, middle);
        glViewport(0, 0, width, height);
        if (samples == 1) {
            whole(q, prepared, middle, 0);
            read(frameBuffer);
        } else {
            glBindFramebuffer(GL_FRAMEBUFFER, sumBuffer);
            glClearColor(0, 0, 0, 0);
            glClear(GL_COLOR_BUFFER_BIT);
            for (int i = 0; i < samples; i++) {
                if (i > 0 && overtaken.getAsBoolean()) {
                    throw new CancellationException("overtaken");
                }
                // Points of the R2 sequence: even cover of the pixel for any number of frames.
                double jx = (0.5 + i * 0.7548776662466927) % 1 - 0.5;
                double jy = (0.5 + i * 0.5698402909980532) % 1 - 0.5;
                whole(q, prepared, q.camera().clipFromWorld(width, height, jx, jy, reach), i);
                add(1.0 / samples);
                glFlush();
            }
            read(sumBuffer);
        }
        return new Frame(width, height, colours(), samples, (System.nanoTime() - began) * 1e-9);
    }

    /** A quad over the whole picture, each pixel from a texture; what frame times are held to. */
    Frame plainQuad(int w, int h) throws GraphicsException {
        long began = System.nanoTime();
        resize(w, h);
        glBindFramebuffer(GL_FRAMEBUFFER, frameBuffer);
        glViewport(0, 0, width, height);
        glDisable(GL_DEPTH_TEST);
        glDisable(GL_BLEND);
        sum.use();
        sum.set("frame", 0);
        sum.set("weight", 1.0);
        glActiveTexture(GL_TEXTURE0);
        glBindTexture(GL_TEXTURE_2D, noise);
        glBindVertexArray(emptyArray);
        glDrawArrays(GL_TRIANGLES, 0, 3);
        read(frameBuffer);
        return new Frame(width, height, colours(), 1, (System.nanoTime() - began) * 1e-9);
    }

    private int[] colours() {
        int[] rgb = new int[width * height];
        for (int y = 0; y < height; y++) {
            int from = 4 * width * (height - 1 - y);
            for (int x = 0; x < width; x++) {
                rgb[y * width + x] = pixels.getInt(from + 4 * x) & 0xFFFFFF;
            }
        }
        return rgb;
    }

    private record Prepared(int cutPatches, int plainPatches, int solidCorners, double[][] regions) {}

    private static double reachMm(BoardSnapshot b) {
        return Math.max(b.widthMm(), b.heightMm()) + marginMm(b) + b.spoilBoardMm() + 20;
    }

    /** How far the spoil board is shown beyond the blank, mm. */
    static double marginMm(BoardSnapshot b) {
        return Math.max(6, 0.14 * Math.max(b.widthMm(), b.heightMm()));
    }

    private static double[][] regions(BoardSnapshot b) {
        double m = marginMm(b);
        double w = b.widthMm();
        double h = b.heightMm();
        return new double[][] {
            {0, 0, w, h},
            {-m, -m, w + m, 0},
            {-m, h, w + m, h + m},
            {-m, 0, 0, h},
            {w, 0, w + m, h},
            {-m, -m, w + m, h + m}
        };
    }

    private Prepared prepare(OffscreenRenderer.Request q, Matrix4f clip) {
        double[][] regions = regions(q.board());
        Patches patches = new Patches(q.board(), q.camera(), clip, height, q.look());
        patches.add(regions[0], 0);
        int last = lifted(q) ? 0 : 4;
        for (int i = 1; i <= last; i++) {
            patches.add(regions[i], i);
        }
        glBindBuffer(GL_ARRAY_BUFFER, patchList);
        glBufferData(GL_ARRAY_BUFFER, patches.cut().list(), GL_STREAM_DRAW);
        glBindBuffer(GL_ARRAY_BUFFER, plainList);
        glBufferData(GL_ARRAY_BUFFER, patches.plain().list(), GL_STREAM_DRAW);
        int corners = 0;
        if (q.look().fixtures() && !lifted(q)) {
            Solids solids = Solids.of(
                    q.board(), q.conditions(), q.camera().zFactor(), q.camera().elevationRad() > 1.3);
            corners = solids.corners();
            glBindBuffer(GL_ARRAY_BUFFER, solidCorners);
            glBufferData(GL_ARRAY_BUFFER, solids.data(), GL_STREAM_DRAW);
        }
        return new Prepared(patches.cut().count(), patches.plain().count(), corners, regions);
    }

    /** One frame; two halves where a base is swiped in. */
    private void whole(OffscreenRenderer.Request q, Prepared prepared, Matrix4f clip, int index)
            throws GraphicsException {
        OffscreenRenderer.Comparison c = q.comparison();
        if (c == null || c.kind() != OffscreenRenderer.Comparison.Kind.SWIPE) {
            once(q, prepared, clip, index);
            return;
        }
        int left = (int) Math.round(width * Math.max(0, Math.min(1, c.share())));
        glEnable(GL_SCISSOR_TEST);
        glScissor(0, 0, left, height);
        once(q.base(), prepared, clip, index);
        glScissor(left, 0, width - left, height);
        once(q, prepared, clip, index);
        glDisable(GL_SCISSOR_TEST);
    }

    private void once(OffscreenRenderer.Request q, Prepared prepared, Matrix4f clip, int index)
            throws GraphicsException {
        glBindFramebuffer(GL_FRAMEBUFFER, frameBuffer);
        glClear(GL_DEPTH_BUFFER_BIT);
        glDisable(GL_DEPTH_TEST);
        glDisable(GL_BLEND);
        background.use();
        double[] up = q.look().dark() ? new double[] {0.13, 0.145, 0.165} : new double[] {0.955, 0.96, 0.965};
        double[] low = q.look().dark() ? new double[] {0.075, 0.08, 0.095} : new double[] {0.86, 0.87, 0.885};
        background.set("upper", up[0], up[1], up[2]);
        background.set("lower", low[0], low[1], low[2]);
        glBindVertexArray(emptyArray);
        glDrawArrays(GL_TRIANGLES, 0, 3);
        glEnable(GL_DEPTH_TEST);
        glDepthFunc(GL_LEQUAL);
        ground(q, prepared, clip, index);
        sides(q, prepared, clip, index);
        if (prepared.solidCorners() > 0) {
            solid.use();
            common(solid, q, clip);
            glBindVertexArray(solidArray);
            glDrawArrays(GL_TRIANGLES, 0, prepared.solidCorners());
        }
    }

    private void common(GlProgram p, OffscreenRenderer.Request q, Matrix4f clip) {
        Camera c = q.camera();
        p.set("clipFromWorld", clip);
        p.set("zFactor", c.zFactor());
        Vector3f eye = c.eye();
        Vector3f to = c.towardsEye();
        p.set("eye", eye.x, eye.y, eye.z);
        p.set("eyeDirection", to.x, to.y, to.z, c.parallel() ? 1 : 0);
        Vector3f key = c.towardsLight();
        p.set("keyDirection", key.x, key.y, key.z);
        Vector3f room = c.roomUp();
        p.set("roomUp", room.x, room.y, room.z);
    }

    private static boolean lifted(OffscreenRenderer.Request q) {
        return q.look().lifted() || q.camera().fromBelow() || q.camera().turn() != null;
    }

    /** The program for one part of the ground; each picture compiles only what it needs. */
    private GlProgram surface(
            OffscreenRenderer.Request q, Prepared prepared, Matrix4f clip, int index, int part, boolean plain)
            throws GraphicsException {
        BoardSnapshot b = q.board();
        Look look = q.look();
        boolean below = q.camera().fromBelow();
        double cellMm = b.runs().isEmpty() ? 0.01 : b.runs().get(0).tiles().cellMm();
        double pixelMm = 1 / q.camera().pixelsPerMm(height);
        boolean coarse = part == 0 && !plain && !below && pixelMm > 0.8 * TileAtlas.BLOCK * cellMm;
        FieldMap field =
                b.extras().fields() == null ? null : b.extras().fields().of(b, q.conditions(), look.paint());
        boolean compared =
                q.comparison() != null && q.comparison().kind() == OffscreenRenderer.Comparison.Kind.DIFFERENCE;
        String definitions = "#define PART " + part
                + "\n#define PLAIN " + (plain ? 1 : 0)
                + "\n#define FINE " + (look.shade() && !below && !plain && part == 0 ? 1 : 0)
                + "\n#define COARSE " + (coarse ? 1 : 0)
                + "\n#define COMPARED " + (compared ? 1 : 0)
                + "\n#define FIELD " + (field != null ? 1 : 0)
                + "\n#define HIGHLIGHT " + (q.highlight() != null ? 1 : 0)
                + "\n#define LIFTED " + (lifted(q) ? 1 : 0)
                + "\n#define PAINTED " + (look.paint() == Look.Paint.MATERIAL ? 0 : 1)
                + "\n#define FLAT " + (b.surface().isFlat() ? 1 : 0)
                + "\n#define SUBSTRATE " + b.substrate().ordinal() + "\n";
        GlProgram surface = surfaces.get(definitions);
        if (surface == null) {
            surface = new GlProgram("surface.vert", "surface.frag", definitions);
            surfaces.put(definitions, surface);
        }
        surface.use();
        common(surface, q, clip);
        uniforms.set(surface, b, q.conditions(), atlas);
        surface.set("noiseMap", 3);
        glActiveTexture(GL_TEXTURE3);
        glBindTexture(GL_TEXTURE_2D, noise);
        glActiveTexture(GL_TEXTURE0);
        float[] boxes = new float[4 * 6];
        for (int i = 0; i < 6; i++) {
            for (int k = 0; k < 4; k++) {
                boxes[4 * i + k] = (float) prepared.regions()[i][k];
            }
        }
        surface.setVectors("regions[0]", boxes);
        surface.set("foilOn", b.copperUp() ? 1 : 0, b.copperDown() ? 1 : 0);
        surface.set("paint", look.paint().ordinal());
        surface.set("turnRad", index * 2.399963);
        surface.set("pixelMm", pixelMm);
        surface.set("coarseLevel", (double) atlas.coarseLevel(pixelMm, cellMm));
        surface.set("through", look.through());
        extras(surface, q, field);
        surface.set("chosenRun", look.chosenRun());
        double[] range = rangeOf(q);
        surface.set("paintRange", range[0], range[1]);
        return surface;
    }

    /** The ends of the colour scale: mm, or lines, or seconds. */
    static double[] rangeOf(OffscreenRenderer.Request q) {
        Look look = q.look();
        BoardSnapshot.Fields fields = q.board().extras().fields();
        if (look.paint() == Look.Paint.LINE || look.paint() == Look.Paint.TIME) {
            FieldMap field = fields == null ? null : fields.of(q.board(), q.conditions(), look.paint());
            return field == null ? new double[] {0, 1} : field.range();
        }
        return look.rangeMm(q.conditions().foilMm(), q.board().thicknessMm());
    }

    private void extras(GlProgram surface, OffscreenRenderer.Request q, @Nullable FieldMap field) {
        if (field != null) {
            fieldTexture.show(field, GL_TEXTURE4);
            surface.set("fieldMap", 4);
            frame(surface, "fieldFrame", field);
        }
        if (q.highlight() != null) {
            highlightTexture.show(q.highlight(), GL_TEXTURE5);
            surface.set("highlightMap", 5);
            frame(surface, "highlightFrame", q.highlight());
        }
        if (q.comparison() != null) {
            SurfaceUniforms.setBase(
                    surface, q.board(), q.conditions(), q.comparison().base());
        }
    }

    private static void frame(GlProgram surface, String name, FieldMap f) {
        surface.set(name, f.x0Mm(), f.y0Mm(), 1 / (f.columns() * f.cellMm()), 1 / (f.rows() * f.cellMm()));
    }

    private void ground(OffscreenRenderer.Request q, Prepared prepared, Matrix4f clip, int index)
            throws GraphicsException {
        for (int part = 0; part <= (q.camera().fromBelow() ? 1 : 0); part++) {
            if (prepared.cutPatches() > 0) {
                surface(q, prepared, clip, index, part, false);
                patches(patchArray, Patches.QUADS, patchList, prepared.cutPatches());
            }
            if (prepared.plainPatches() > 0) {
                surface(q, prepared, clip, index, part, true);
                patches(plainArray, Patches.PLAIN_QUADS, plainList, prepared.plainPatches());
            }
        }
    }

    private void patches(int array, int quads, int buffer, int count) {
        int side = quads + 2;
        glBindVertexArray(array);
        bindPatchList(buffer);
        glDrawElementsInstanced(GL_TRIANGLES, 6 * side * side, GL_UNSIGNED_INT, 0, count);
    }

    private void sides(OffscreenRenderer.Request q, Prepared prepared, Matrix4f clip, int index)
            throws GraphicsException {
        boolean lifted = lifted(q);
        BoardSnapshot b = q.board();
        GlProgram surface = surface(q, prepared, clip, index, 2, false);
        glBindVertexArray(stripArray);
        surface.set("sideZ", lifted ? -b.thicknessMm() : b.spoilTopMm(), 1);
        strips(prepared.regions()[0]);
        if (!lifted) {
            surface.set("sideZ", b.spoilTopMm() - b.spoilBoardMm(), 0);
            strips(prepared.regions()[5]);
        }
    }

    private void strips(double[] box) {
        float x0 = (float) box[0];
        float y0 = (float) box[1];
        float x1 = (float) box[2];
        float y1 = (float) box[3];
        float[] lines = {x0, y0, x1, y0, x1, y0, x1, y1, x1, y1, x0, y1, x0, y1, x0, y0};
        glBindBuffer(GL_ARRAY_BUFFER, stripCorners);
        int list = glGenBuffers();
        glBindBuffer(GL_ARRAY_BUFFER, list);
        glBufferData(GL_ARRAY_BUFFER, lines, GL_STREAM_DRAW);
        glEnableVertexAttribArray(1);
        glVertexAttribPointer(1, 4, GL_FLOAT, false, 16, 0);
        glVertexAttribDivisor(1, 1);
        glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, 2 * (STRIP_PARTS + 1), 4);
        glDeleteBuffers(list);
    }

    private void add(double weight) {
        glBindFramebuffer(GL_FRAMEBUFFER, sumBuffer);
        glDisable(GL_DEPTH_TEST);
        glEnable(GL_BLEND);
        glBlendFunc(GL_ONE, GL_ONE);
        sum.use();
        sum.set("frame", 0);
        sum.set("weight", weight);
        glActiveTexture(GL_TEXTURE0);
        glBindTexture(GL_TEXTURE_2D, frameColour);
        glBindVertexArray(emptyArray);
        glDrawArrays(GL_TRIANGLES, 0, 3);
    }

    private void read(int buffer) {
        glBindFramebuffer(GL_FRAMEBUFFER, buffer);
        glPixelStorei(GL_PACK_ALIGNMENT, 4);
        glReadPixels(0, 0, width, height, GL_BGRA, GL_UNSIGNED_BYTE, pixels);
    }

    private void deleteBuffers() {
        if (frameBuffer != 0) {
            glDeleteFramebuffers(new int[] {frameBuffer, sumBuffer});
            glDeleteTextures(new int[] {frameColour, sumColour});
            glDeleteRenderbuffers(frameDepth);
            frameBuffer = 0;
        }
    }

    void delete() {
        deleteBuffers();
        atlas.delete();
        uniforms.delete();
        fieldTexture.delete();
        highlightTexture.delete();
        surfaces.values().forEach(GlProgram::delete);
        glDeleteTextures(noise);
        solid.delete();
        background.delete();
        sum.delete();
        MemoryUtil.memFree(pixels);
    }
}

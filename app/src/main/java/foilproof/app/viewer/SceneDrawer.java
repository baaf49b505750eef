package foilproof.app.viewer;

import static org.lwjgl.opengl.GL33C.*;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.IntBuffer;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import org.joml.Matrix4f;
import org.joml.Vector3f;
import org.jspecify.annotations.Nullable;

/** All drawing of one picture; lives on the drawing thread. */
final class SceneDrawer {
    private final Map<String, GlProgram> surfaces = new HashMap<>();
    private final GlProgram solid;
    private final GlProgram sum;
    private final TileAtlas atlas = new TileAtlas();
    private final SurfaceUniforms uniforms = new SurfaceUniforms();
    private final FieldTexture fieldTexture = new FieldTexture();
    private final FieldTexture highlightTexture = new FieldTexture();
    private final int emptyArray;
    private final int noise;
    private final int solidArray;
    private final int solidCorners;
    private final int packBuffer;
    private final AtomicReference<int @Nullable []> spare;
    private long packBytes;
    private int frameBuffer;
    private int frameColour;
    private int frameDepth;
    private int sumBuffer;
    private int sumColour;
    private int width;
    private int height;

    /**
     * Makes programs and buffers.
     *
     * @param spare pixels of a frame that nobody looks at any more, taken for the next one
     */
    SceneDrawer(AtomicReference<int @Nullable []> spare) throws GraphicsException {
        this.spare = spare;
        solid = new GlProgram("solid.vert", "solid.frag");
        sum = new GlProgram("full.vert", "sum.frag");
        emptyArray = glGenVertexArrays();
        noise = NoiseTexture.make();
        solidArray = glGenVertexArrays();
        solidCorners = glGenBuffers();
        packBuffer = glGenBuffers();
        makeSolidArray();
    }

    String driverWords() {
        return glGetString(GL_RENDERER) + ", OpenGL " + glGetString(GL_VERSION);
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
        int solids = prepare(q);
        glViewport(0, 0, width, height);
        int[] rgb;
        if (samples == 1) {
            whole(q, solids, middle, new double[2], 0);
            rgb = read(frameBuffer);
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
                double[] shift = {2 * jx / width, 2 * jy / height};
                whole(q, solids, q.camera().clipFromWorld(width, height, jx, jy, reach), shift, i);
                add(1.0 / samples);
                glFlush();
            }
            rgb = read(sumBuffer);
        }
        return new Frame(width, height, rgb, samples, (System.nanoTime() - began) * 1e-9);
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
        return new Frame(width, height, read(frameBuffer), 1, (System.nanoTime() - began) * 1e-9);
    }

    private static double reachMm(BoardSnapshot b) {
        return Math.max(b.widthMm(), b.heightMm()) + marginMm(b) + b.spoilBoardMm() + 20;
    }

    /** How far the spoil board is shown beyond the blank, mm. */
    static double marginMm(BoardSnapshot b) {
        return Math.max(6, 0.14 * Math.max(b.widthMm(), b.heightMm()));
    }

    /** Solids for the graphics; gives back how many corners they have. */
    private int prepare(OffscreenRenderer.Request q) {
        if (!q.look().fixtures() || lifted(q)) {
            return 0;
        }
        Solids solids = Solids.of(
                q.board(), q.conditions(), q.camera().zFactor(), q.camera().elevationRad() > 1.3);
        glBindBuffer(GL_ARRAY_BUFFER, solidCorners);
        glBufferData(GL_ARRAY_BUFFER, solids.data(), GL_STREAM_DRAW);
        return solids.corners();
    }

    /** One frame; two halves where a base is swiped in. */
    private void whole(OffscreenRenderer.Request q, int solids, Matrix4f clip, double[] shift, int index)
            throws GraphicsException {
        OffscreenRenderer.Comparison c = q.comparison();
        if (c == null || c.kind() != OffscreenRenderer.Comparison.Kind.SWIPE) {
            once(q, solids, clip, shift, index);
            return;
        }
        int left = (int) Math.round(width * Math.max(0, Math.min(1, c.share())));
        glEnable(GL_SCISSOR_TEST);
        glScissor(0, 0, left, height);
        once(q.base(), solids, clip, shift, index);
        glScissor(left, 0, width - left, height);
        once(q, solids, clip, shift, index);
        glDisable(GL_SCISSOR_TEST);
    }

    private void once(OffscreenRenderer.Request q, int solids, Matrix4f clip, double[] shift, int index)
            throws GraphicsException {
        glBindFramebuffer(GL_FRAMEBUFFER, frameBuffer);
        glDisable(GL_BLEND);
        if (solids > 0) {
            // Every pixel of the board writes its depth, so nothing need be cleared.
            glEnable(GL_DEPTH_TEST);
            glDepthFunc(GL_ALWAYS);
        } else {
            glDisable(GL_DEPTH_TEST);
        }
        surface(q, clip, shift, index, solids > 0);
        glBindVertexArray(emptyArray);
        glDrawArrays(GL_TRIANGLES, 0, 3);
        if (solids > 0) {
            glDepthFunc(GL_LEQUAL);
            solid.use();
            common(solid, q, clip);
            glBindVertexArray(solidArray);
            glDrawArrays(GL_TRIANGLES, 0, solids);
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
        Vector3f window = new Vector3f(room).mul(0.75f).add(key).normalize();
        p.set("windowDirection", window.x, window.y, window.z);
    }

    private static boolean lifted(OffscreenRenderer.Request q) {
        return q.look().lifted() || q.camera().fromBelow() || q.camera().turn() != null;
    }

    /** Smallest pixel, in blocks, from which a board that moves is looked up by blocks; and one that rests, in cells. */
    private static final double COARSE_MOVING = 0.8;

    private static final double COARSE_STILL_MM = 0.35;

    /** Sums from which a picture is made for looking at, not for the moment between two moves. */
    private static final int STILL_SUMS = 6;

    /** Most runs that a program names one by one. */
    private static final int MOST_NAMED = 10;

    /** The board's program with all it needs; each picture compiles only what it needs. */
    private void surface(OffscreenRenderer.Request q, Matrix4f clip, double[] shift, int index, boolean depth)
            throws GraphicsException {
        BoardSnapshot b = q.board();
        Look look = q.look();
        double cellMm = b.runs().isEmpty() ? 0.01 : b.runs().get(0).tiles().cellMm();
        double pixelMm = 1 / q.camera().pixelsPerMm(height);
        boolean coarse = !lifted(q)
                && pixelMm
                        > (look.samples() >= STILL_SUMS
                                ? Math.max(COARSE_STILL_MM, COARSE_MOVING * TileAtlas.BLOCK * cellMm)
                                : COARSE_MOVING * TileAtlas.BLOCK * cellMm);
        FieldMap field =
                b.extras().fields() == null ? null : b.extras().fields().of(b, q.conditions(), look.paint());
        boolean compared =
                q.comparison() != null && q.comparison().kind() == OffscreenRenderer.Comparison.Kind.DIFFERENCE;
        boolean bowed = !b.surface().isFlat() || q.conditions().bowMm() != 0;
        String definitions = each("EACH_TOP", 0, b.runs().size())
                + each(
                        "EACH_FAR",
                        b.runs().size(),
                        b.runs().size() + b.farRuns().size())
                + "#define DEPTH " + (depth ? 1 : 0)
                + "\n#define FINE " + (look.shade() ? 1 : 0)
                + "\n#define COARSE " + (coarse ? 1 : 0)
                + "\n#define CLOSE " + (look.shade() && pixelMm < 1.5 * cellMm ? 1 : 0)
                + "\n#define COMPARED " + (compared ? 1 : 0)
                + "\n#define FIELD " + (field != null ? 1 : 0)
                + "\n#define HIGHLIGHT " + (q.highlight() != null ? 1 : 0)
                + "\n#define LIFTED " + (lifted(q) ? 1 : 0)
                + "\n#define FARCUT " + (b.farRuns().isEmpty() ? 0 : 1)
                + "\n#define PAINTED " + (look.paint() == Look.Paint.MATERIAL ? 0 : 1)
                + "\n#define FLAT " + (bowed ? 0 : 1)
                + "\n#define SUBSTRATE " + b.substrate().ordinal() + "\n";
        GlProgram surface = surfaces.get(definitions);
        if (surface == null) {
            surface = new GlProgram("full.vert", "surface.frag", definitions);
            surfaces.put(definitions, surface);
        }
        surface.use();
        common(surface, q, clip);
        rays(surface, q, shift);
        uniforms.set(surface, b, q.conditions(), atlas);
        surface.set("noiseMap", 3);
        glActiveTexture(GL_TEXTURE3);
        glBindTexture(GL_TEXTURE_2D, noise);
        glActiveTexture(GL_TEXTURE0);
        double[] up = look.dark() ? new double[] {0.13, 0.145, 0.165} : new double[] {0.955, 0.96, 0.965};
        double[] low = look.dark() ? new double[] {0.075, 0.08, 0.095} : new double[] {0.86, 0.87, 0.885};
        surface.set("upper", up[0], up[1], up[2]);
        surface.set("lower", low[0], low[1], low[2]);
        surface.set("foilOn", b.copperUp() ? 1 : 0, b.copperDown() ? 1 : 0);
        surface.set("paint", look.paint().ordinal());
        surface.set("turnRad", index * 2.399963);
        surface.set("pixelMm", pixelMm);
        int level = atlas.coarseLevel(pixelMm, cellMm);
        surface.set("coarseLevel", level);
        surface.set(
                "coarseSize",
                (double) (atlas.coarseSide() >> level),
                b.runs().isEmpty() ? 1.0 : b.runs().get(0).tiles().tileCells());
        surface.set("seeThrough", look.through());
        extras(surface, q, field);
        surface.set("screenUnit", Math.max(1.0, Math.rint(OverlayPainter.scaleFor(width, height))));
        surface.set("chosenRun", look.chosenRun());
        double[] range = rangeOf(q);
        surface.set("paintRange", range[0], range[1]);
    }

    /** A macro that hands on each run by its number, or by a loop where there are many. */
    private static String each(String name, int from, int to) {
        StringBuilder text = new StringBuilder("#define ").append(name).append("(F)");
        if (to - from > MOST_NAMED) {
            return text.append(" for (int run = " + from + "; run < " + to + "; run++) { F(run) }\n")
                    .toString();
        }
        for (int k = from; k < to; k++) {
            text.append(" F(").append(k).append(")");
        }
        return text.append("\n").toString();
    }

    private void rays(GlProgram surface, OffscreenRenderer.Request q, double[] shift) {
        Camera c = q.camera();
        BoardSnapshot b = q.board();
        Vector3f from = q.camera().target();
        Vector3f right = c.right().mul((float) (c.heightMm() / 2 * width / height));
        Vector3f up = c.up().mul((float) (c.heightMm() / 2));
        surface.set("rayFrom", from.x, from.y, from.z);
        surface.set("rayRight", right.x, right.y, right.z);
        surface.set("rayUpward", up.x, up.y, up.z);
        surface.set("rayShift", shift[0], shift[1]);
        double top = 0;
        for (float h : b.surface().heightsMm()) {
            top = Math.max(top, h);
        }
        surface.set("topMm", top + Math.max(0, -q.conditions().bowMm()));
        surface.set("spoilBox", marginMm(b), b.spoilTopMm() - b.spoilBoardMm(), 0, 0);
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

    /**
     * Reads a buffer back, top row first, through a buffer of the driver's own: a graphics card fills that in one go.
     */
    private int[] read(int buffer) {
        glBindFramebuffer(GL_FRAMEBUFFER, buffer);
        glPixelStorei(GL_PACK_ALIGNMENT, 4);
        glBindBuffer(GL_PIXEL_PACK_BUFFER, packBuffer);
        if (packBytes != 4L * width * height) {
            packBytes = 4L * width * height;
            glBufferData(GL_PIXEL_PACK_BUFFER, packBytes, GL_STREAM_READ);
        }
        glReadPixels(0, 0, width, height, GL_BGRA, GL_UNSIGNED_INT_8_8_8_8_REV, 0L);
        glFlush();
        // While the card draws: touching megabytes of fresh memory takes longer than a frame does on a quick card.
        int[] old = spare.getAndSet(null);
        int[] rgb = old != null && old.length == width * height ? old : new int[width * height];
        ByteBuffer mapped = glMapBufferRange(GL_PIXEL_PACK_BUFFER, 0, packBytes, GL_MAP_READ_BIT);
        if (mapped != null) {
            IntBuffer rows = mapped.order(ByteOrder.nativeOrder()).asIntBuffer();
            for (int y = 0; y < height; y++) {
                rows.get(width * (height - 1 - y), rgb, y * width, width);
            }
            glUnmapBuffer(GL_PIXEL_PACK_BUFFER);
        }
        glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
        return rgb;
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
        sum.delete();
        glDeleteBuffers(packBuffer);
    }
}

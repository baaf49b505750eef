package foilproof.app.viewer;

import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;

/**
 * Draws snapshots without a window, on a thread of its own that owns the OpenGL context.
 *
 * <p>Close it before the process ends: some drivers crash when a context is still bound then.
 */
public final class OffscreenRenderer implements AutoCloseable {
    private final ExecutorService thread;
    private final Thread atExit;
    private final AtomicReference<int @Nullable []> spare = new AtomicReference<>();
    private volatile boolean closed;
    private @Nullable GlContext context;
    private @Nullable SceneDrawer drawer;
    private String words = "";

    /**
     * What is to be drawn.
     *
     * @param board the snapshot
     * @param conditions what differs from the base
     * @param camera from where
     * @param look how
     * @param width pixels
     * @param height pixels
     * @param comparison what it is held against, or null
     * @param highlight places that are tinted (any value but NaN), e.g. all copper that is joined, or null
     */
    public record Request(
            BoardSnapshot board,
            BoardSnapshot.Conditions conditions,
            Camera camera,
            Look look,
            int width,
            int height,
            @Nullable Comparison comparison,
            @Nullable FieldMap highlight) {
        /** A picture on its own. */
        public Request(
                BoardSnapshot board,
                BoardSnapshot.Conditions conditions,
                Camera camera,
                Look look,
                int width,
                int height) {
            this(board, conditions, camera, look, width, height, null, null);
        }

        /** The same held against a base. */
        public Request against(@Nullable Comparison c) {
            return new Request(board, conditions, camera, look, width, height, c, highlight);
        }

        /** The same with places tinted. */
        public Request highlighting(@Nullable FieldMap places) {
            return new Request(board, conditions, camera, look, width, height, comparison, places);
        }

        /** The same board under the base conditions of the comparison. */
        Request base() {
            if (comparison == null) {
                return this;
            }
            BoardSnapshot before = board.withThickness(board.thicknessMm() - conditions.thicknessChangeMm());
            return new Request(before, comparison.base(), camera, look, width, height, comparison, highlight);
        }
    }

    /**
     * What a picture is held against.
     *
     * @param base the conditions of the other picture
     * @param kind how
     * @param share SWIPE: how much of the picture, from the left, shows the base, 0 to 1
     */
    public record Comparison(BoardSnapshot.Conditions base, Kind kind, double share) {
        /** How two conditions are held against each other. */
        public enum Kind {
            /** The base to the left of a line, the what-if to its right. */
            SWIPE,
            /** Only where copper differs: extra and missing under the what-if. */
            DIFFERENCE
        }
    }

    /** Starts the thread; the context is made with the first picture, or by {@link #start()}. */
    public OffscreenRenderer() {
        thread = Executors.newSingleThreadExecutor(task -> {
            Thread t = new Thread(task, "foilproof-drawing");
            t.setDaemon(true);
            return t;
        });
        // A process that ends while a frame is under way would take the driver's libraries from under it.
        atExit = new Thread(this::end, "foilproof-drawing-end");
        Runtime.getRuntime().addShutdownHook(atExit);
    }

    /** Makes the context and the shaders in the background, so that the first picture need not wait for them. */
    public CompletableFuture<String> start() {
        return submit(() -> {
            drawer();
            return words;
        });
    }

    /** Begins {@link #start()} and forgets it: a failure is met again, and told, by the first picture. */
    public void warmUp() {
        thread.execute(() -> {
            try {
                drawer();
            } catch (GraphicsException | RuntimeException | LinkageError e) {
                words = String.valueOf(e.getMessage());
            }
        });
    }

    /** Draws a picture; the future fails with a {@link GraphicsException} where graphics do not work. */
    public CompletableFuture<Frame> draw(Request request) {
        return draw(request, () -> false);
    }

    /**
     * Draws a picture that may be given up.
     *
     * @param overtaken asked between the summed frames; true ends the work with a {@link CancellationException}, except
     *     that one frame is always finished
     */
    public CompletableFuture<Frame> draw(Request request, BooleanSupplier overtaken) {
        return submit(() -> drawer().draw(request, overtaken));
    }

    /**
     * Gives a frame's pixels back for the next frame of the same size; nobody may read that frame afterwards. Frames that
     * are not given back are only slower: fresh memory costs more than drawing on a quick card.
     */
    public void recycle(Frame frame) {
        spare.set(frame.rgb());
    }

    /** Fills the same pixels with a plain textured quad and reads them back: what frame times are held to. */
    CompletableFuture<Frame> drawPlainQuad(int width, int height) {
        return submit(() -> drawer().plainQuad(width, height));
    }

    /** What draws, in words: the way to the context, the driver's name and version. */
    public String words() {
        return words;
    }

    private SceneDrawer drawer() throws GraphicsException {
        if (drawer == null) {
            if (context == null) {
                context = GlContext.open();
            }
            drawer = new SceneDrawer(spare);
            words = context.words() + ", " + drawer.driverWords();
        }
        return drawer;
    }

    private interface Work<T> {
        T run() throws GraphicsException;
    }

    private <T> CompletableFuture<T> submit(Work<T> work) {
        CompletableFuture<T> result = new CompletableFuture<>();
        if (thread.isShutdown()) {
            result.completeExceptionally(new CancellationException("closed"));
            return result;
        }
        thread.execute(() -> {
            try {
                result.complete(work.run());
            } catch (Exception | LinkageError e) {
                result.completeExceptionally(e);
            }
        });
        return result;
    }

    /** Waits for a picture. */
    static Frame await(CompletableFuture<Frame> frame) throws GraphicsException {
        try {
            return frame.get();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new GraphicsException("interrupted while drawing");
        } catch (ExecutionException e) {
            if (e.getCause() instanceof GraphicsException g) {
                throw g;
            }
            throw new GraphicsException("drawing failed: " + e.getCause());
        }
    }

    @Override
    public void close() {
        end();
        try {
            Runtime.getRuntime().removeShutdownHook(atExit);
        } catch (IllegalStateException e) {
            // The process is ending already; the hook has nothing left to do.
        }
    }

    private synchronized void end() {
        if (closed) {
            return;
        }
        closed = true;
        CompletableFuture<Boolean> done = submit(() -> {
            if (drawer != null) {
                drawer.delete();
                drawer = null;
            }
            if (context != null) {
                context.close();
                context = null;
            }
            return true;
        });
        thread.shutdown();
        done.handle((value, error) -> "").join();
    }
}

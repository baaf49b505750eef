package foilproof.app.viewer;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** An OpenGL 3.3 core context without a window, current on the thread that made it. */
interface GlContext extends AutoCloseable {
    /** How the context was made, in words. */
    String words();

    /** Unbinds and destroys the context and ends what was begun for it; on the thread that made it. */
    @Override
    void close();

    /** One way to make a context. */
    interface Maker {
        /** Makes a context and makes it current, or says why not. */
        GlContext make() throws GraphicsException;
    }

    /**
     * Makes a context in the first way that works here.
     *
     * @throws GraphicsException where none works; names what was tried and why each failed
     */
    static GlContext open() throws GraphicsException {
        String os = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        List<Maker> makers = new ArrayList<>();
        if (os.contains("mac")) {
            makers.add(CglContext::new);
        } else if (os.contains("win")) {
            makers.add(() -> new GlfwContext(false));
        } else {
            // Which way is taken can be forced where a driver misbehaves:
            // -Dfoilproof.graphics=device|surfaceless|memory
            String only = System.getProperty("foilproof.graphics", "");
            if (only.isEmpty() || only.equals("device")) {
                makers.add(() -> EglContext.onDevice());
            }
            if (only.isEmpty() || only.equals("surfaceless")) {
                makers.add(() -> EglContext.surfaceless());
            }
            if (only.isEmpty() || only.equals("memory")) {
                makers.add(() -> new GlfwContext(true));
            }
        }
        StringBuilder why = new StringBuilder();
        for (Maker maker : makers) {
            try {
                return maker.make();
            } catch (GraphicsException | RuntimeException | LinkageError e) {
                why.append("\n  ").append(e.getMessage());
            }
        }
        throw new GraphicsException("No OpenGL 3.3 here. Tried:" + why
                + "\nThe picture needs a graphics driver or Mesa's software drawing; "
                + "dryrun, study, explain and the report work without.");
    }
}

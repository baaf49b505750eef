package foilproof.app.viewer;

import static org.lwjgl.glfw.GLFW.*;

import org.lwjgl.opengl.GL;
import org.lwjgl.system.Configuration;

/** Windows: a window that is never shown. Linux without EGL: Mesa's drawing into memory, on no display at all. */
final class GlfwContext implements GlContext {
    private final long window;
    private final boolean inMemory;

    GlfwContext(boolean inMemory) throws GraphicsException {
        this.inMemory = inMemory;
        if (inMemory) {
            Configuration.OPENGL_CONTEXT_API.set("OSMesa");
            glfwInitHint(GLFW_PLATFORM, GLFW_PLATFORM_NULL);
        }
        if (!glfwInit()) {
            throw new GraphicsException(words() + ": cannot start");
        }
        glfwDefaultWindowHints();
        glfwWindowHint(GLFW_VISIBLE, GLFW_FALSE);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
        glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
        if (inMemory) {
            glfwWindowHint(GLFW_CONTEXT_CREATION_API, GLFW_OSMESA_CONTEXT_API);
        }
        window = glfwCreateWindow(64, 64, "Foilproof", 0, 0);
        if (window == 0) {
            glfwTerminate();
            throw new GraphicsException(words() + ": no OpenGL 3.3 core context");
        }
        glfwMakeContextCurrent(window);
        GL.createCapabilities(true);
    }

    @Override
    public String words() {
        return inMemory ? "OSMesa" : "hidden window";
    }

    @Override
    public void close() {
        GL.setCapabilities(null);
        glfwMakeContextCurrent(0);
        glfwDestroyWindow(window);
        glfwTerminate();
    }
}

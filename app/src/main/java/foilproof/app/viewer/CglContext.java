package foilproof.app.viewer;

import static org.lwjgl.opengl.CGL.*;

import java.nio.IntBuffer;
import org.lwjgl.PointerBuffer;
import org.lwjgl.opengl.GL;
import org.lwjgl.system.MemoryStack;

/** macOS: a Core OpenGL context, which needs no window and no main thread. */
final class CglContext implements GlContext {
    /** kCGLOGLPVersion_GL3_Core: 3.2 and everything later that the driver has, which is 4.1. */
    private static final int CORE_PROFILE = 0x3200;

    private final long context;

    CglContext() throws GraphicsException {
        try (MemoryStack stack = MemoryStack.stackPush()) {
            IntBuffer attributes = stack.ints(kCGLPFAOpenGLProfile, CORE_PROFILE, kCGLPFAColorSize, 24, 0);
            PointerBuffer format = stack.mallocPointer(1);
            IntBuffer count = stack.mallocInt(1);
            if (CGLChoosePixelFormat(attributes, format, count) != 0 || format.get(0) == 0) {
                throw new GraphicsException("Core OpenGL: no core profile");
            }
            PointerBuffer made = stack.mallocPointer(1);
            int error = CGLCreateContext(format.get(0), 0, made);
            CGLDestroyPixelFormat(format.get(0));
            if (error != 0) {
                throw new GraphicsException("Core OpenGL: error " + error);
            }
            context = made.get(0);
            CGLSetCurrentContext(context);
        }
        GL.createCapabilities(true);
    }

    @Override
    public String words() {
        return "Core OpenGL";
    }

    @Override
    public void close() {
        GL.setCapabilities(null);
        CGLSetCurrentContext(0);
        CGLDestroyContext(context);
    }
}

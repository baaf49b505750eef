package foilproof.app.viewer;

import static org.lwjgl.egl.EGL10.*;
import static org.lwjgl.egl.EGL12.EGL_RENDERABLE_TYPE;
import static org.lwjgl.egl.EGL12.eglBindAPI;
import static org.lwjgl.egl.EGL14.EGL_OPENGL_API;
import static org.lwjgl.egl.EGL14.EGL_OPENGL_BIT;
import static org.lwjgl.egl.EGL15.*;

import java.nio.IntBuffer;
import org.lwjgl.PointerBuffer;
import org.lwjgl.egl.EGL;
import org.lwjgl.egl.EXTDeviceEnumeration;
import org.lwjgl.egl.EXTPlatformDevice;
import org.lwjgl.opengl.GL;
import org.lwjgl.system.Configuration;
import org.lwjgl.system.JNI;
import org.lwjgl.system.MemoryStack;

/** Linux: EGL on a graphics device or on no surface at all (Mesa's software drawing among them). */
final class EglContext implements GlContext {
    private static final int SURFACELESS_MESA = 0x31DD;

    private final long display;
    private final long context;
    private final String words;

    static GlContext onDevice() throws GraphicsException {
        try (MemoryStack stack = MemoryStack.stackPush()) {
            PointerBuffer devices = stack.mallocPointer(16);
            IntBuffer count = stack.mallocInt(1);
            if (EGL.getCapabilities().eglQueryDevicesEXT == 0
                    || !EXTDeviceEnumeration.eglQueryDevicesEXT(devices, count)) {
                throw new GraphicsException("EGL devices: the driver lists none");
            }
            String why = "none listed";
            for (int i = 0; i < count.get(0); i++) {
                try {
                    return new EglContext(EXTPlatformDevice.EGL_PLATFORM_DEVICE_EXT, devices.get(i), "EGL device " + i);
                } catch (GraphicsException e) {
                    why = String.valueOf(e.getMessage());
                }
            }
            throw new GraphicsException("EGL devices: " + why);
        }
    }

    static GlContext surfaceless() throws GraphicsException {
        return new EglContext(SURFACELESS_MESA, 0, "EGL surfaceless");
    }

    private EglContext(int platform, long device, String words) throws GraphicsException {
        this.words = words;
        long get = EGL.getCapabilities().eglGetPlatformDisplay;
        get = get != 0 ? get : EGL.getCapabilities().eglGetPlatformDisplayEXT;
        if (get == 0) {
            throw new GraphicsException(words + ": EGL 1.5 is needed");
        }
        // Called raw: the binding refuses 0 for the device, which is what the surfaceless platform wants.
        display = JNI.callPPP(platform, device, 0L, get);
        try (MemoryStack stack = MemoryStack.stackPush()) {
            IntBuffer version = stack.mallocInt(2);
            if (display == 0 || !eglInitialize(display, version, version.slice(1, 1))) {
                throw new GraphicsException(words + ": cannot start");
            }
            EGL.createDisplayCapabilities(display, version.get(0), version.get(1));
            PointerBuffer config = stack.mallocPointer(1);
            int[] n = new int[1];
            int[] wanted = {EGL_SURFACE_TYPE, 0, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
            eglBindAPI(EGL_OPENGL_API);
            boolean found = eglChooseConfig(display, wanted, config, n) && n[0] > 0;
            int[] attributes = {
                EGL_CONTEXT_MAJOR_VERSION,
                3,
                EGL_CONTEXT_MINOR_VERSION,
                3,
                EGL_CONTEXT_OPENGL_PROFILE_MASK,
                EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                EGL_NONE
            };
            context = found ? eglCreateContext(display, config.get(0), EGL_NO_CONTEXT, attributes) : 0;
            if (context == 0 || !eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context)) {
                eglTerminate(display);
                throw new GraphicsException(words + ": no OpenGL 3.3 core context");
            }
        }
        Configuration.OPENGL_CONTEXT_API.set("EGL");
        GL.createCapabilities(true);
    }

    @Override
    public String words() {
        return words;
    }

    @Override
    public void close() {
        // In this order: one vendor's driver crashes when the process ends with a context still bound.
        GL.setCapabilities(null);
        eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
        eglDestroyContext(display, context);
        eglTerminate(display);
        eglReleaseThread();
    }
}

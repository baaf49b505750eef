package foilproof.app.viewer;

import static org.lwjgl.opengl.GL33C.*;

import java.nio.FloatBuffer;
import org.jspecify.annotations.Nullable;
import org.lwjgl.system.MemoryUtil;

/** A map of values on the graphics side; uploaded again only when it is another. */
final class FieldTexture {
    private int texture;
    private @Nullable FieldMap uploaded;

    /** Binds the map to a texture unit. */
    void show(FieldMap f, int unit) {
        glActiveTexture(unit);
        if (texture == 0) {
            texture = glGenTextures();
        }
        glBindTexture(GL_TEXTURE_2D, texture);
        if (f != uploaded) {
            FloatBuffer texels = MemoryUtil.memAllocFloat(f.values().length);
            for (int i = 0; i < f.values().length; i++) {
                texels.put(i, Float.isNaN(f.values()[i]) ? -1e9f : f.values()[i]);
            }
            glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
            glTexImage2D(GL_TEXTURE_2D, 0, GL_R32F, f.columns(), f.rows(), 0, GL_RED, GL_FLOAT, texels);
            glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
            glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
            MemoryUtil.memFree(texels);
            uploaded = f;
        }
        glActiveTexture(GL_TEXTURE0);
    }

    void delete() {
        if (texture != 0) {
            glDeleteTextures(texture);
            texture = 0;
        }
    }
}

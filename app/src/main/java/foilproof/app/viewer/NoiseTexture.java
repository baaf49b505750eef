package foilproof.app.viewer;

import static org.lwjgl.opengl.GL33C.*;

import java.nio.ByteBuffer;
import org.lwjgl.system.MemoryUtil;

/** Two channels of smooth noise that tile without a seam, made by a fixed generator so that pictures repeat. */
final class NoiseTexture {
    private static final int SIDE = 256;

    private NoiseTexture() {}

    /** Uploads the texture with its mip levels. */
    static int make() {
        float[] raw = new float[SIDE * SIDE * 2];
        int state = 12345;
        for (int i = 0; i < raw.length; i++) {
            // Numerical Recipes' quick linear congruential generator.
            state = state * 1664525 + 1013904223;
            raw[i] = (state >>> 16 & 0xFFFF) / 65535f;
        }
        ByteBuffer texels = MemoryUtil.memAlloc(SIDE * SIDE * 2);
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                for (int c = 0; c < 2; c++) {
                    float v = raw[2 * (y * SIDE + x) + c] * 0.5f
                            + raw[2 * (y * SIDE + (x + 1) % SIDE) + c] * 0.25f
                            + raw[2 * ((y + 1) % SIDE * SIDE + x) + c] * 0.25f;
                    texels.put((byte) (int) Math.max(0, Math.min(255, (v - 0.5f) * 1.6f * 255 + 127.5f)));
                }
            }
        }
        texels.flip();
        int texture = glGenTextures();
        glBindTexture(GL_TEXTURE_2D, texture);
        glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
        glTexImage2D(GL_TEXTURE_2D, 0, GL_RG8, SIDE, SIDE, 0, GL_RG, GL_UNSIGNED_BYTE, texels);
        glGenerateMipmap(GL_TEXTURE_2D);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_NEAREST);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
        MemoryUtil.memFree(texels);
        return texture;
    }
}

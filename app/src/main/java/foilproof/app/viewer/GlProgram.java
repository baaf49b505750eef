package foilproof.app.viewer;

import static org.lwjgl.opengl.GL33C.*;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import org.joml.Matrix4f;

/** A linked pair of shaders from the jar's {@code shaders} folder, with its uniforms by name. */
final class GlProgram {
    private final int id;
    private final Map<String, Integer> places = new HashMap<>();

    /**
     * Compiles and links.
     *
     * @throws GraphicsException with the driver's words where it refuses
     */
    GlProgram(String vertexFile, String fragmentFile) throws GraphicsException {
        this(vertexFile, fragmentFile, "");
    }

    /**
     * Compiles and links with definitions.
     *
     * @param definitions lines that follow the version line of both shaders
     * @throws GraphicsException with the driver's words where it refuses
     */
    GlProgram(String vertexFile, String fragmentFile, String definitions) throws GraphicsException {
        id = glCreateProgram();
        int v = compile(GL_VERTEX_SHADER, vertexFile, definitions);
        int f = compile(GL_FRAGMENT_SHADER, fragmentFile, definitions);
        glAttachShader(id, v);
        glAttachShader(id, f);
        glLinkProgram(id);
        glDeleteShader(v);
        glDeleteShader(f);
        if (glGetProgrami(id, GL_LINK_STATUS) == 0) {
            throw new GraphicsException(vertexFile + " with " + fragmentFile + ": " + glGetProgramInfoLog(id));
        }
    }

    private static int compile(int kind, String file, String definitions) throws GraphicsException {
        int shader = glCreateShader(kind);
        String text = source(file);
        int firstLine = text.indexOf('\n') + 1;
        glShaderSource(shader, text.substring(0, firstLine) + definitions + text.substring(firstLine));
        glCompileShader(shader);
        if (glGetShaderi(shader, GL_COMPILE_STATUS) == 0) {
            throw new GraphicsException(file + ": " + glGetShaderInfoLog(shader));
        }
        return shader;
    }

    /** The file's text, with each line {@code //include NAME} replaced by that file. */
    static String source(String file) throws GraphicsException {
        try (InputStream in = GlProgram.class.getResourceAsStream("/shaders/" + file)) {
            if (in == null) {
                throw new GraphicsException("shaders/" + file + " is missing from the jar");
            }
            StringBuilder out = new StringBuilder();
            for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n", -1)) {
                boolean include = line.startsWith("//include ");
                out.append(include ? source(line.substring(10).trim()) : line).append('\n');
            }
            return out.toString();
        } catch (IOException e) {
            throw new GraphicsException("shaders/" + file + " cannot be read: " + e.getMessage());
        }
    }

    void use() {
        glUseProgram(id);
    }

    int place(String name) {
        return places.computeIfAbsent(name, n -> glGetUniformLocation(id, n));
    }

    void set(String name, int value) {
        glUniform1i(place(name), value);
    }

    void set(String name, int a, int b) {
        glUniform2i(place(name), a, b);
    }

    void set(String name, double value) {
        glUniform1f(place(name), (float) value);
    }

    void set(String name, double a, double b) {
        glUniform2f(place(name), (float) a, (float) b);
    }

    void set(String name, double a, double b, double c) {
        glUniform3f(place(name), (float) a, (float) b, (float) c);
    }

    void set(String name, double a, double b, double c, double d) {
        glUniform4f(place(name), (float) a, (float) b, (float) c, (float) d);
    }

    void set(String name, Matrix4f m) {
        glUniformMatrix4fv(place(name), false, m.get(new float[16]));
    }

    void setFloats(String name, float[] values) {
        glUniform1fv(place(name), values);
    }

    void setInts(String name, int[] values) {
        glUniform1iv(place(name), values);
    }

    void setVectors(String name, float[] values) {
        glUniform4fv(place(name), values);
    }

    void setVectors(String name, int[] values) {
        glUniform4iv(place(name), values);
    }

    void delete() {
        glDeleteProgram(id);
    }
}

package foilproof.source;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * One input file as it was read: the name a person knows it by, its bytes and their SHA-256. Immutable: the
 * bytes are hashed once and never handed out for writing.
 */
public final class SourceFile {
    private final String name;
    private final byte[] bytes;
    private final String sha256;

    private SourceFile(String name, byte[] bytes) {
        this.name = name;
        this.bytes = bytes;
        this.sha256 = hash(bytes);
    }

    /** Takes over a copy of {@code bytes}; {@code name} is the path as the job names it. */
    public static SourceFile of(String name, byte[] bytes) {
        return new SourceFile(name, bytes.clone());
    }

    /** A file from text, UTF-8. */
    public static SourceFile ofText(String name, String text) {
        return new SourceFile(name, text.getBytes(StandardCharsets.UTF_8));
    }

    /** The name shown to a person: the path as the job names it, with forward slashes. */
    public String name() {
        return name;
    }

    /** Size in bytes. */
    public int size() {
        return bytes.length;
    }

    /** The byte at {@code index}, 0-based. */
    public byte byteAt(int index) {
        return bytes[index];
    }

    /** A copy of the bytes. */
    public byte[] bytes() {
        return bytes.clone();
    }

    /** The content read as ISO-8859-1: one char a byte, so that columns and bytes agree in program text. */
    public String latin1() {
        return new String(bytes, StandardCharsets.ISO_8859_1);
    }

    /** The content read as UTF-8, malformed bytes replaced by U+FFFD. */
    public String utf8() {
        return new String(bytes, StandardCharsets.UTF_8);
    }

    /** SHA-256 of the bytes, lower-case hexadecimal. */
    public String sha256() {
        return sha256;
    }

    private static String hash(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}

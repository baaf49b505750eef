package foilproof.report;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;

/**
 * The deflate format (RFC 1951) in a zlib wrapper (RFC 1950), one block with the fixed codes, greedy matches. The
 * platform's own compressor gives other bytes with another zlib, and a report must be the same bytes everywhere.
 */
final class Deflate {
    private static final int WINDOW = 32 * 1024;
    private static final int SHORTEST = 3;
    private static final int LONGEST = 258;
    private static final int HASH_BITS = 15;
    private static final int CHAIN = 24;
    private static final int[] LENGTH_BASE = {
        3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99, 115, 131, 163, 195, 227,
        258
    };
    private static final int[] LENGTH_EXTRA = {
        0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0
    };
    private static final int[] DISTANCE_BASE = {
        1, 2, 3, 4, 5, 7, 9, 13, 17, 25, 33, 49, 65, 97, 129, 193, 257, 385, 513, 769, 1025, 1537, 2049, 3073, 4097,
        6145, 8193, 12289, 16385, 24577
    };
    private static final int[] DISTANCE_EXTRA = {
        0, 0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12, 13, 13
    };

    private final byte[] in;
    private final ByteArrayOutputStream out;
    private int bits;
    private int bitCount;

    private Deflate(byte[] in) {
        this.in = in;
        this.out = new ByteArrayOutputStream(in.length / 8 + 64);
    }

    /** {@code data} as a zlib stream. */
    static byte[] zlib(byte[] data) {
        Deflate deflate = new Deflate(data);
        deflate.out.write(0x78);
        deflate.out.write(0x9c);
        deflate.block();
        int adler = adler32(data);
        for (int shift = 24; shift >= 0; shift -= 8) {
            deflate.out.write(adler >>> shift);
        }
        return deflate.out.toByteArray();
    }

    private void block() {
        put(1, 1);
        put(1, 2);
        int[] newest = new int[1 << HASH_BITS];
        Arrays.fill(newest, -1);
        int[] older = new int[WINDOW];
        int at = 0;
        while (at < in.length) {
            int length = 0;
            int distance = 0;
            if (at + SHORTEST <= in.length) {
                int candidate = newest[hash(at)];
                for (int tries = 0; candidate >= 0 && at - candidate < WINDOW && tries < CHAIN; tries++) {
                    int same = same(candidate, at);
                    if (same > length) {
                        length = same;
                        distance = at - candidate;
                        if (length == LONGEST) {
                            break;
                        }
                    }
                    int next = older[candidate & (WINDOW - 1)];
                    candidate = next < candidate ? next : -1;
                }
            }
            int step = length >= SHORTEST ? length : 1;
            if (step > 1) {
                match(length, distance);
            } else {
                literal(in[at] & 0xff);
            }
            for (int end = at + step; at < end; at++) {
                if (at + SHORTEST <= in.length) {
                    int hash = hash(at);
                    older[at & (WINDOW - 1)] = newest[hash];
                    newest[hash] = at;
                }
            }
        }
        literal(256);
        put(0, (8 - bitCount) & 7);
    }

    private int hash(int at) {
        int three = (in[at] & 0xff) << 16 | (in[at + 1] & 0xff) << 8 | in[at + 2] & 0xff;
        return three * 0x9E3779B1 >>> 32 - HASH_BITS;
    }

    private int same(int earlier, int at) {
        int most = Math.min(LONGEST, in.length - at);
        int n = 0;
        while (n < most && in[earlier + n] == in[at + n]) {
            n++;
        }
        return n;
    }

    private void literal(int symbol) {
        if (symbol < 144) {
            code(0x30 + symbol, 8);
        } else if (symbol < 256) {
            code(0x190 + symbol - 144, 9);
        } else if (symbol < 280) {
            code(symbol - 256, 7);
        } else {
            code(0xc0 + symbol - 280, 8);
        }
    }

    private void match(int length, int distance) {
        int l = step(LENGTH_BASE, length);
        literal(257 + l);
        put(length - LENGTH_BASE[l], LENGTH_EXTRA[l]);
        int d = step(DISTANCE_BASE, distance);
        code(d, 5);
        put(distance - DISTANCE_BASE[d], DISTANCE_EXTRA[d]);
    }

    private static int step(int[] bases, int value) {
        int at = Arrays.binarySearch(bases, value);
        return at >= 0 ? at : -at - 2;
    }

    /** A Huffman code goes out from its highest bit (RFC 1951 section 3.1.1). */
    private void code(int value, int width) {
        put(Integer.reverse(value) >>> 32 - width, width);
    }

    private void put(int value, int width) {
        bits |= value << bitCount;
        bitCount += width;
        while (bitCount >= 8) {
            out.write(bits);
            bits >>>= 8;
            bitCount -= 8;
        }
    }

    private static int adler32(byte[] data) {
        int a = 1;
        int b = 0;
        for (byte value : data) {
            a = (a + (value & 0xff)) % 65521;
            b = (b + a) % 65521;
        }
        return b << 16 | a;
    }
}

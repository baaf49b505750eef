package foilproof.motion;

import java.util.Arrays;

/** Columns that grow; one thread only. The planner fills geometry first and times afterwards. */
final class SegmentsBuilder {
    int size;
    byte[] kind;
    double[] x0Mm;
    double[] y0Mm;
    double[] z0Mm;
    double[] x1Mm;
    double[] y1Mm;
    double[] z1Mm;
    double[] cxMm;
    double[] cyMm;
    double[] sweepRad;
    double[] startS;
    double[] durationS;
    float[] entryMmPerS;
    float[] exitMmPerS;
    double[] feedMmPerMin;
    double[] peakMmPerMin;
    float[] spindleRpm;
    byte[] spindleTurn;
    byte[] pathMode;
    /** Deviation allowed at corners in continuous mode, mm. */
    float[] deviationMm;

    int[] program;
    int[] line;
    int[] run;
    short[] flags;

    SegmentsBuilder(int capacity) {
        int n = Math.max(16, capacity);
        kind = new byte[n];
        x0Mm = new double[n];
        y0Mm = new double[n];
        z0Mm = new double[n];
        x1Mm = new double[n];
        y1Mm = new double[n];
        z1Mm = new double[n];
        cxMm = new double[n];
        cyMm = new double[n];
        sweepRad = new double[n];
        startS = new double[n];
        durationS = new double[n];
        entryMmPerS = new float[n];
        exitMmPerS = new float[n];
        feedMmPerMin = new double[n];
        peakMmPerMin = new double[n];
        spindleRpm = new float[n];
        spindleTurn = new byte[n];
        pathMode = new byte[n];
        deviationMm = new float[n];
        program = new int[n];
        line = new int[n];
        run = new int[n];
        flags = new short[n];
    }

    /** Appends an empty segment and returns its index. */
    int add() {
        if (size == kind.length) {
            grow(size + (size >> 1) + 16);
        }
        return size++;
    }

    /** Makes room for {@code more} segments at once. */
    void reserve(int more) {
        if (size + more > kind.length) {
            grow(size + more);
        }
    }

    /** Cuts the columns to length where much room is left over; they are handed on as they are. */
    void trim() {
        if (kind.length - size > size / 4 + 64) {
            grow(size);
        }
    }

    private void grow(int n) {
        kind = Arrays.copyOf(kind, n);
        x0Mm = Arrays.copyOf(x0Mm, n);
        y0Mm = Arrays.copyOf(y0Mm, n);
        z0Mm = Arrays.copyOf(z0Mm, n);
        x1Mm = Arrays.copyOf(x1Mm, n);
        y1Mm = Arrays.copyOf(y1Mm, n);
        z1Mm = Arrays.copyOf(z1Mm, n);
        cxMm = Arrays.copyOf(cxMm, n);
        cyMm = Arrays.copyOf(cyMm, n);
        sweepRad = Arrays.copyOf(sweepRad, n);
        startS = Arrays.copyOf(startS, n);
        durationS = Arrays.copyOf(durationS, n);
        entryMmPerS = Arrays.copyOf(entryMmPerS, n);
        exitMmPerS = Arrays.copyOf(exitMmPerS, n);
        feedMmPerMin = Arrays.copyOf(feedMmPerMin, n);
        peakMmPerMin = Arrays.copyOf(peakMmPerMin, n);
        spindleRpm = Arrays.copyOf(spindleRpm, n);
        spindleTurn = Arrays.copyOf(spindleTurn, n);
        pathMode = Arrays.copyOf(pathMode, n);
        deviationMm = Arrays.copyOf(deviationMm, n);
        program = Arrays.copyOf(program, n);
        line = Arrays.copyOf(line, n);
        run = Arrays.copyOf(run, n);
        flags = Arrays.copyOf(flags, n);
    }

    /** Hands the columns on: the builder is not to be used afterwards. */
    Segments build() {
        return new Segments(this);
    }
}

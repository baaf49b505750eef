package foilproof.app.cli;

import java.io.PrintStream;

/**
 * One line on a terminal that tells how far a run is; says nothing where nobody watches, and nothing in the first moments,
 * so that quick runs leave no flicker.
 */
final class ProgressLine implements AutoCloseable {
    private static final long FIRST_NS = 400_000_000L;
    private static final long AGAIN_NS = 80_000_000L;
    private static final int BAR = 30;

    private final PrintStream err;
    private final boolean shown;
    private final long startNs = System.nanoTime();
    private long lastNs;
    private int lastLength;

    ProgressLine(Console console, boolean wanted) {
        this.err = console.err();
        this.shown = wanted && console.isTerminal();
    }

    /** Tells what is being done and how much of the whole is done, 0 to 1. May be called from any thread. */
    synchronized void at(String what, double fraction) {
        long nowNs = System.nanoTime();
        if (!shown || nowNs - startNs < FIRST_NS || lastLength > 0 && nowNs - lastNs < AGAIN_NS) {
            return;
        }
        lastNs = nowNs;
        double done = Math.max(0, Math.min(1, fraction));
        int full = (int) (done * BAR);
        String line = "[" + "#".repeat(full) + " ".repeat(BAR - full) + "] " + (int) (done * 100) + " % " + what;
        err.print("\r" + line + " ".repeat(Math.max(0, lastLength - line.length())));
        err.flush();
        lastLength = line.length();
    }

    /** Wipes the line. */
    @Override
    public synchronized void close() {
        if (lastLength > 0) {
            err.print("\r" + " ".repeat(lastLength) + "\r");
            err.flush();
            lastLength = 0;
        }
    }
}

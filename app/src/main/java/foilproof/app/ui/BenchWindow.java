package foilproof.app.ui;

import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import org.jspecify.annotations.Nullable;

/** The bench window. */
final class BenchWindow {
    private BenchWindow() {}

    static void openAndWait(@Nullable JobSource job, ReadOptions options) {
        throw new UnsupportedOperationException("not built yet");
    }
}

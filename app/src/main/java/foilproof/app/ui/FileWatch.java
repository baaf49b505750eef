package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.source.SourceFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import javax.swing.SwingWorker;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/** Looks now and then whether a file of the job changed on disk; looks in the background. */
final class FileWatch {
    private static final int EVERY_MS = 1000;

    private final BenchModel model;
    private final Runnable changed;
    private final Timer timer;
    private @Nullable Path folder;
    private Map<String, String> seen = Map.of();
    private boolean looking;

    /** What a look found: the stamp of every file, and whether any holds other bytes than the job was read from. */
    private record Look(Map<String, String> stamps, boolean otherBytes) {}

    FileWatch(BenchModel model, Runnable changed) {
        this.model = model;
        this.changed = changed;
        timer = new Timer(EVERY_MS, e -> look());
        timer.start();
        model.listen(c -> {
            if (c == BenchModel.Change.JOB) {
                seen = Map.of();
            }
        });
    }

    /** The folder of the job on the bench, or null where it does not lie on disk. */
    void watch(@Nullable Path newFolder) {
        folder = newFolder;
        seen = Map.of();
    }

    void stop() {
        timer.stop();
    }

    private void look() {
        JobScene s = model.scene();
        Path in = folder;
        if (s == null || in == null || looking) {
            return;
        }
        looking = true;
        Map<String, String> before = seen;
        new SwingWorker<Look, Void>() {
            @Override
            protected Look doInBackground() {
                Map<String, String> now = new TreeMap<>();
                boolean other = false;
                for (SourceFile f : s.job().inputs()) {
                    Path file = in.resolve(f.name());
                    now.put(f.name(), stamp(file));
                    // A file may change between its reading and the first look: only its bytes tell then.
                    other |= before.isEmpty() && !holds(file, f);
                }
                return new Look(now, other);
            }

            @Override
            protected void done() {
                looking = false;
                if (model.scene() != s || in != folder) {
                    return;
                }
                try {
                    Look now = get();
                    boolean other = before.isEmpty() ? now.otherBytes() : !before.equals(now.stamps());
                    seen = now.stamps();
                    if (other) {
                        changed.run();
                    }
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } catch (java.util.concurrent.ExecutionException e) {
                    seen = Map.of();
                }
            }
        }.execute();
    }

    private static boolean holds(Path file, SourceFile read) {
        try {
            return SourceFile.of(read.name(), Files.readAllBytes(file)).sha256().equals(read.sha256());
        } catch (IOException e) {
            return false;
        }
    }

    private static String stamp(Path file) {
        try {
            return Files.size(file) + " " + Files.getLastModifiedTime(file);
        } catch (IOException e) {
            return "gone";
        }
    }
}

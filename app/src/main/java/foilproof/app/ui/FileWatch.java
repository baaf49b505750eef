package foilproof.app.ui;

import foilproof.app.viewer.JobScene;
import foilproof.source.SourceFile;
import java.io.IOException;
import java.nio.file.ClosedWatchServiceException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/**
 * Looks whether a file of the job changed on disk, in the background: as soon as the file system says that something
 * happened beside them, where it says so, and now and then in any case.
 */
final class FileWatch {
    private static final int EVERY_MS = 1000;

    /** What is written in several goes is looked at once it rests for so long. */
    private static final int SETTLE_MS = 15;

    private final BenchModel model;
    private final Runnable changed;
    private final Timer timer;
    private final Timer soon;
    private @Nullable WatchService told;
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
        soon = new Timer(SETTLE_MS, e -> look());
        soon.setRepeats(false);
        model.listen(c -> {
            if (c == BenchModel.Change.JOB) {
                seen = Map.of();
                listen();
                look();
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
        soon.stop();
        deafen();
    }

    /** Asks to be told of the folders in which the job's files lie. */
    private void listen() {
        deafen();
        JobScene s = model.scene();
        Path in = folder;
        if (s == null || in == null) {
            return;
        }
        Set<Path> folders = new LinkedHashSet<>();
        for (SourceFile f : s.job().inputs()) {
            Path parent = in.resolve(f.name()).toAbsolutePath().getParent();
            if (parent != null) {
                folders.add(parent);
            }
        }
        try {
            WatchService service = in.getFileSystem().newWatchService();
            told = service;
            for (Path p : folders) {
                p.register(
                        service,
                        StandardWatchEventKinds.ENTRY_CREATE,
                        StandardWatchEventKinds.ENTRY_MODIFY,
                        StandardWatchEventKinds.ENTRY_DELETE);
            }
            Thread t = new Thread(() -> hear(service), "foilproof-files");
            t.setDaemon(true);
            t.start();
        } catch (IOException | UnsupportedOperationException e) {
            // Nobody tells here: looking now and then stays.
            deafen();
        }
    }

    private void hear(WatchService service) {
        try {
            while (true) {
                WatchKey key = service.take();
                key.pollEvents();
                SwingUtilities.invokeLater(() -> {
                    if (told == service) {
                        soon.restart();
                    }
                });
                if (!key.reset()) {
                    return;
                }
            }
        } catch (ClosedWatchServiceException e) {
            // Another job lies on the bench.
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void deafen() {
        WatchService service = told;
        told = null;
        if (service != null) {
            try {
                service.close();
            } catch (IOException e) {
                // It tells nothing any more either way.
            }
        }
    }

    private void look() {
        JobScene s = model.scene();
        Path in = folder;
        if (s == null || in == null) {
            return;
        }
        if (looking) {
            soon.restart();
            return;
        }
        looking = true;
        Map<String, String> before = seen;
        CompletableFuture.supplyAsync(() -> {
                    Map<String, String> now = new TreeMap<>();
                    boolean other = false;
                    for (SourceFile f : s.job().inputs()) {
                        Path file = in.resolve(f.name());
                        now.put(f.name(), stamp(file));
                        // A file may change between its reading and the first look: only its bytes tell then.
                        other |= before.isEmpty() && !holds(file, f);
                    }
                    return new Look(now, other);
                })
                .exceptionally(failed -> new Look(Map.of(), false))
                .thenAccept(now -> SwingUtilities.invokeLater(() -> looked(s, in, before, now)));
    }

    private void looked(JobScene s, Path in, Map<String, String> before, Look now) {
        looking = false;
        if (model.scene() != s || in != folder) {
            // What was looked at lies on the bench no more.
            soon.restart();
            return;
        }
        // No stamps: the look itself failed, and the next one looks at the bytes again.
        boolean other = before.isEmpty() ? now.otherBytes() : !now.stamps().isEmpty() && !before.equals(now.stamps());
        seen = now.stamps();
        if (other) {
            changed.run();
        }
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

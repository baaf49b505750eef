package foilproof.app.ui;

import foilproof.app.viewer.Pictures;
import foilproof.bench.FileAccess;
import foilproof.bench.JobSource;
import foilproof.dryrun.DryRunResult;
import foilproof.report.BoardPictures;
import foilproof.report.ReportFiles;
import foilproof.source.SourceFile;
import java.awt.Component;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ExecutionException;
import java.util.function.Consumer;
import java.util.prefs.Preferences;
import javax.swing.JFileChooser;
import javax.swing.SwingWorker;
import org.jspecify.annotations.Nullable;

/** Everything that the window writes: reports, pictures, copies of jobs. Each appears whole or not at all. */
final class Saving {
    private static final int MOST_BYTES = 64 << 20;

    private final Component over;
    private final Preferences remembered;
    private final Consumer<String> teller;

    Saving(Component over, Preferences remembered, Consumer<String> teller) {
        this.over = over;
        this.remembered = remembered;
        this.teller = teller;
    }

    /** Where the person wrote last; else the job's folder; else their home. */
    Path folder(@Nullable Path job) {
        String last = remembered.get("out", "");
        try {
            if (!last.isEmpty() && Files.isDirectory(Path.of(last))) {
                return Path.of(last);
            }
        } catch (InvalidPathException e) {
            // What was remembered is no path here: as if nothing was.
        }
        return job != null && Files.isWritable(job) ? job : Path.of(System.getProperty("user.home", "."));
    }

    private void remember(@Nullable Path out) {
        if (out != null && out.toString().length() < Preferences.MAX_VALUE_LENGTH) {
            remembered.put("out", out.toString());
        }
    }

    /** Asks for a folder, or a name for a new one; null where the person thought better of it. */
    @Nullable
    Path askFolder(String title, Path suggested) {
        JFileChooser chooser = new JFileChooser();
        chooser.setName("folder chooser");
        chooser.setDialogTitle(title);
        chooser.setFileSelectionMode(JFileChooser.DIRECTORIES_ONLY);
        chooser.setCurrentDirectory(
                suggested.getParent() == null ? null : suggested.getParent().toFile());
        chooser.setSelectedFile(suggested.toFile());
        chooser.setApproveButtonText("Write here");
        return chooser.showDialog(over, null) == JFileChooser.APPROVE_OPTION
                ? chooser.getSelectedFile().toPath()
                : null;
    }

    /** Writes report, results and pictures of a checked job into a folder that is asked for. */
    void report(@Nullable DryRunResult result, @Nullable Path job) {
        if (result == null) {
            teller.accept("No report: the job is not checked yet.");
            return;
        }
        String name = "foilproof-" + plain(result.document().job());
        Path folder = askFolder("Write the report into a folder", folder(job).resolve(name));
        if (folder == null) {
            return;
        }
        teller.accept("Writing the report ...");
        new SwingWorker<List<Path>, Void>() {
            @Override
            protected List<Path> doInBackground() throws IOException {
                return ReportFiles.write(
                        folder,
                        result.document(),
                        BoardPictures.of(result.examination(), result.document().findings()));
            }

            @Override
            protected void done() {
                try {
                    int n = get().size();
                    remember(folder.getParent());
                    teller.accept("Report written: " + folder.resolve("report.html") + " and " + (n - 1)
                            + " files beside it.");
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } catch (ExecutionException e) {
                    teller.accept("The report could not be written to " + folder + ": " + why(e.getCause()));
                }
            }
        }.execute();
    }

    /** Writes a picture of the whole window where the person wrote last, under a name that is still free. */
    void screenshot(Component window, String job, @Nullable Path jobFolder) {
        BufferedImage image = new BufferedImage(
                Math.max(1, window.getWidth()), Math.max(1, window.getHeight()), BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        window.paint(g);
        g.dispose();
        write(image, free(folder(jobFolder), "foilproof-" + plain(job)));
    }

    /** Writes a picture; a file of that name is replaced. */
    void write(BufferedImage image, Path file) {
        new SwingWorker<Path, Void>() {
            @Override
            protected Path doInBackground() throws IOException {
                Pictures.write(image, file);
                return file.toAbsolutePath();
            }

            @Override
            protected void done() {
                try {
                    Path written = get();
                    remember(written.getParent());
                    teller.accept(String.format(
                            Locale.ROOT,
                            "Picture written: %s (%d x %d).",
                            written,
                            image.getWidth(),
                            image.getHeight()));
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                } catch (ExecutionException e) {
                    teller.accept("The picture could not be written to " + file + ": " + why(e.getCause()));
                }
            }
        }.execute();
    }

    private static Path free(Path folder, String name) {
        for (int i = 1; ; i++) {
            Path p = folder.resolve(name + (i == 1 ? "" : "-" + i) + ".png");
            if (!Files.exists(p)) {
                return p;
            }
        }
    }

    /** A name as a file may have it: letters, digits and dashes. */
    static String plain(String words) {
        String s = words.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-+|-+$", "");
        return s.isEmpty() ? "job" : s.substring(0, Math.min(60, s.length()));
    }

    /** Why something could not be written, in words. */
    static String why(@Nullable Throwable e) {
        if (e instanceof java.nio.file.AccessDeniedException) {
            return "this folder may not be written to.";
        }
        if (e instanceof java.nio.file.NoSuchFileException || e instanceof java.io.FileNotFoundException) {
            return "there is no such folder.";
        }
        if (e instanceof java.nio.file.FileSystemException f && f.getReason() != null) {
            return "the system says: " + f.getReason().toLowerCase(Locale.ROOT) + ".";
        }
        return e == null || e.getMessage() == null ? "no reason was given." : e.getMessage();
    }

    /**
     * Copies a job into a new or empty folder; all files or none.
     *
     * @param inputs the files that the job was read from; those of the job's folder are copied with them
     * @return the folder
     * @throws IOException where the folder holds something, or cannot be written
     */
    static Path copy(JobSource job, List<SourceFile> inputs, Path folder) throws IOException {
        if (Files.exists(folder)) {
            if (!Files.isDirectory(folder)) {
                throw new IOException("there is a file of that name.");
            }
            try (DirectoryStream<Path> there = Files.newDirectoryStream(folder)) {
                if (there.iterator().hasNext()) {
                    throw new IOException("the folder is not empty, and nothing is overwritten.");
                }
            }
        }
        FileAccess from = job.files();
        Set<String> names = new TreeSet<>(from.list());
        inputs.forEach(f -> names.add(f.name()));
        Path parent = folder.toAbsolutePath().getParent();
        if (parent != null) {
            Files.createDirectories(parent);
        }
        Path part = Files.createTempDirectory(parent == null ? Path.of(".") : parent, ".foilproof-copy");
        List<Path> written = new ArrayList<>();
        try {
            for (String name : names) {
                Path to = part.resolve(name).normalize();
                if (!to.startsWith(part) || !from.inside(name)) {
                    continue;
                }
                Path in = to.getParent();
                if (in != null) {
                    Files.createDirectories(in);
                }
                written.add(to);
                Files.write(to, from.read(name, MOST_BYTES).bytes());
            }
            Files.deleteIfExists(folder);
            // A temporary folder is its owner's alone; a copy is as open as any folder that the person makes.
            Files.createDirectory(folder);
            try {
                move(part, folder);
            } catch (IOException e) {
                empty(folder);
                throw e;
            }
            return folder;
        } catch (DirectoryNotEmptyException e) {
            throw new IOException("the folder is not empty, and nothing is overwritten.");
        } finally {
            empty(part);
        }
    }

    private static void move(Path from, Path to) throws IOException {
        try (DirectoryStream<Path> all = Files.newDirectoryStream(from)) {
            for (Path p : all) {
                Files.move(p, to.resolve(String.valueOf(p.getFileName())), StandardCopyOption.ATOMIC_MOVE);
            }
        }
    }

    private static void empty(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            return;
        }
        try (DirectoryStream<Path> all = Files.newDirectoryStream(folder)) {
            for (Path p : all) {
                if (Files.isDirectory(p)) {
                    empty(p);
                } else {
                    Files.delete(p);
                }
            }
        }
        Files.deleteIfExists(folder);
    }

    /** Asks for a folder and copies a packed job into it; null where nothing was copied, and says so. */
    @Nullable
    Path saveCopy(JobSource job, List<SourceFile> inputs, String name) {
        Path folder = askFolder(
                "Save a copy of \"" + name + "\" in a new folder", folder(null).resolve(plain(name)));
        if (folder == null) {
            return null;
        }
        try {
            Path made = copy(job, inputs, folder);
            remember(made.toAbsolutePath().getParent());
            teller.accept("Copied: the job lies in " + made.toAbsolutePath() + " now.");
            return made.toAbsolutePath();
        } catch (IOException e) {
            teller.accept("Not copied to " + folder + ": " + why(e));
            return null;
        }
    }

    /** Asks for a picture file; null where the person thought better of it. */
    @Nullable
    Path askPicture(String job, @Nullable Path jobFolder) {
        JFileChooser chooser = new JFileChooser();
        chooser.setDialogTitle("Save the picture as PNG");
        Path suggested = free(folder(jobFolder), plain(job));
        chooser.setCurrentDirectory(
                suggested.getParent() == null ? null : suggested.getParent().toFile());
        chooser.setSelectedFile(suggested.toFile());
        if (chooser.showSaveDialog(over) != JFileChooser.APPROVE_OPTION) {
            return null;
        }
        File f = chooser.getSelectedFile();
        return f.getName().contains(".") ? f.toPath() : Path.of(f.getPath() + ".png");
    }
}

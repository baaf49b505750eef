package foilproof.app.cli;

import java.io.File;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Runs {@code dryrun} in a second Java process whose compiler and collector suit a run of seconds.
 *
 * <p>People start the program, look, and close it. Java's second compiler spends more time on such a run than the run
 * itself takes, and which compilers work is said when a process starts: a jar's manifest cannot. So the first process
 * starts a second one with the right options and hands on what comes of it: input, output and exit code are shared, an
 * end of the first one ends the second too. Nothing of this touches results.
 *
 * <p>It is left out wherever Java was started in any other way than {@code java -jar FILE ARGUMENTS}: with options of a
 * person's own, those count; where the system does not tell, nothing is supposed.
 */
final class ShortRun {
    /** Names the first process to the second. */
    static final String PARENT = "foilproof.parent";

    /** Files of a job beyond so many bytes make a long run, at cells of 10 um: some 25,000 lines of program. */
    private static final long LONG_BYTES = 600_000;

    /** Variables that name options to Java. */
    private static final List<String> VARIABLES = List.of("JAVA_TOOL_OPTIONS", "JDK_JAVA_OPTIONS", "_JAVA_OPTIONS");

    /** A collector without threads of its own needs the least memory and time for heaps of this size. */
    private static final List<String> ALL = List.of("-XX:+IgnoreUnrecognizedVMOptions", "-XX:+UseSerialGC");

    /** The quick compiler alone. */
    private static final List<String> SHORT = List.of("-XX:TieredStopAtLevel=1");

    /** Both compilers, the thorough one ten times later than usual: for the few loops that run so long. */
    private static final List<String> LONG = List.of(
            "-XX:Tier4BackEdgeThreshold=400000",
            "-XX:Tier4InvocationThreshold=50000",
            "-XX:Tier4MinInvocationThreshold=6000",
            "-XX:Tier4CompileThreshold=150000");

    /** How Java is told to write an archive of the classes that a run loaded. */
    private static final String WRITES_ARCHIVE = "-XX:ArchiveClassesAtExit=";

    private static final String NEW = ".new";

    private static final long WATCH_MS = 200;
    /** What a process ends with that was killed outright. */
    private static final int KILLED = 137;

    private ShortRun() {}

    /**
     * The exit code of the second process; null where there is to be none, and the command runs in this one.
     *
     * @param args the program's arguments
     */
    static @Nullable Integer of(String[] args) {
        if (System.getProperty(PARENT) != null) {
            return null;
        }
        ProcessHandle.Info info = ProcessHandle.current().info();
        List<String> command = command(args, info.command(), info.arguments(), System.getenv());
        Integer code = command == null ? null : run(command);
        if (command != null && code != null) {
            keepArchive(command, code);
        }
        return code;
    }

    /**
     * How to start the second process; null where there is to be none.
     *
     * @param args the program's arguments
     * @param java the program that runs this process, where the system tells
     * @param arguments what it was given, where the system tells
     * @param environment variables
     */
    static @Nullable List<String> command(
            String[] args, Optional<String> java, Optional<String[]> arguments, Map<String, String> environment) {
        boolean plain = args.length >= 2
                && args[0].equals("dryrun")
                && java.isPresent()
                && arguments.isPresent()
                && arguments.get().length == args.length + 2
                && arguments.get()[0].equals("-jar")
                && System.getProperty("java.vm.name", "").endsWith("Server VM")
                && VARIABLES.stream().noneMatch(environment::containsKey);
        if (!plain) {
            return null;
        }
        List<String> command = new ArrayList<>();
        command.add(java.get());
        command.addAll(ALL);
        command.addAll(isLong(args) ? LONG : SHORT);
        command.add("-D" + PARENT + "=" + ProcessHandle.current().pid());
        String jar = Path.of(arguments.get()[1]).toAbsolutePath().normalize().toString();
        command.addAll(archiveOf(jar));
        command.add("-jar");
        command.add(jar);
        command.addAll(List.of(args));
        return command;
    }

    /**
     * Options for an archive of classes beside the jar: a run takes from it, read and checked already, what the first run
     * wrote as it ended. Java compares the archive with itself and with the jar, and goes without where anything differs;
     * what it then says would stand in the results, so it is to say nothing. None where the jar's folder cannot be
     * written to.
     */
    private static List<String> archiveOf(String jar) {
        try {
            Path file = Path.of(jar);
            Path folder = file.getParent();
            Path archive = archivePath(file);
            if (folder == null || !Files.isRegularFile(file)) {
                return List.of();
            }
            if (Files.isReadable(archive)
                    && Files.getLastModifiedTime(archive).compareTo(Files.getLastModifiedTime(file)) >= 0) {
                return List.of("-XX:SharedArchiveFile=" + archive, "-Xshare:auto", "-Xlog:disable");
            }
            // each run writes a file of its own: one that is half written is never taken for the archive
            return Files.isWritable(folder)
                    ? List.of(
                            WRITES_ARCHIVE + archive + "."
                                    + ProcessHandle.current().pid() + NEW,
                            "-Xlog:disable")
                    : List.of();
        } catch (IOException e) {
            return List.of();
        }
    }

    /** The archive of a jar for this version of Java. */
    static Path archivePath(Path jar) {
        String version = System.getProperty("java.vm.version", "").replaceAll("[^A-Za-z0-9.+-]", "_");
        return Path.of(jar + "-" + version + ".jsa");
    }

    /** Puts an archive that a run wrote into its place; one of a run that ended badly lacks most classes, and goes. */
    static void keepArchive(List<String> command, int code) {
        for (String option : command) {
            if (option.startsWith(WRITES_ARCHIVE)) {
                String written = option.substring(WRITES_ARCHIVE.length());
                String kept = written.substring(0, written.lastIndexOf('.', written.length() - NEW.length() - 1));
                try {
                    if (code == ExitCode.FINE || code == ExitCode.FINDINGS) {
                        Files.move(Path.of(written), Path.of(kept), StandardCopyOption.ATOMIC_MOVE);
                    }
                    delete(Path.of(written));
                } catch (IOException e) {
                    // not written, or another run holds the old one: the next run tries again
                    delete(Path.of(written));
                }
            }
        }
    }

    private static void delete(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            file.toFile().deleteOnExit();
        }
    }

    /** Whether the job is so large that the thorough compiler pays: a guess from sizes, which only time depends on. */
    private static boolean isLong(String[] args) {
        long most = LONG_BYTES;
        for (int k = 1; k < args.length; k++) {
            // smaller cells mean more work, however it is written
            if (args[k].startsWith("--cell")) {
                most = LONG_BYTES / 4;
            }
        }
        for (int k = 1; k < args.length; k++) {
            if (bytesAt(args[k]) > most) {
                return true;
            }
        }
        return false;
    }

    /** Bytes of the files in a folder, or in the folder of a file; 0 for what is neither. */
    private static long bytesAt(String name) {
        long bytes = 0;
        try {
            Path path = Path.of(name);
            Path folder = Files.isDirectory(path) ? path : path.toAbsolutePath().getParent();
            if (folder == null || !Files.exists(path)) {
                return 0;
            }
            try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
                for (Path file : files) {
                    bytes += Files.isRegularFile(file) ? Files.size(file) : 0;
                }
            }
        } catch (IOException | InvalidPathException | java.nio.file.DirectoryIteratorException e) {
            return 0;
        }
        return bytes;
    }

    /** Runs a command with this process's streams; null where it cannot be started. */
    static @Nullable Integer run(List<String> command) {
        Process process;
        try {
            process = new ProcessBuilder(command)
                    .directory(new File("").getAbsoluteFile())
                    .inheritIO()
                    .start();
        } catch (IOException e) {
            return null;
        }
        Thread end = new Thread(process::destroy, "foilproof-end");
        Runtime.getRuntime().addShutdownHook(end);
        while (true) {
            try {
                int code = process.waitFor();
                Runtime.getRuntime().removeShutdownHook(end);
                return code;
            } catch (InterruptedException e) {
                process.destroy();
            } catch (IllegalStateException e) {
                // this process is ending already, and takes the other with it
                return KILLED;
            }
        }
    }

    /** In the second process: ends it soon after the first, even where that one was killed outright. */
    static void watchParent() {
        String pid = System.getProperty(PARENT);
        if (pid == null) {
            return;
        }
        Optional<ProcessHandle> parent = ProcessHandle.of(Long.parseLong(pid));
        Thread watch = new Thread(
                () -> {
                    while (parent.isPresent() && parent.get().isAlive()) {
                        try {
                            Thread.sleep(WATCH_MS);
                        } catch (InterruptedException e) {
                            return;
                        }
                    }
                    Runtime.getRuntime().halt(KILLED);
                },
                "foilproof-watch");
        watch.setDaemon(true);
        watch.start();
    }
}

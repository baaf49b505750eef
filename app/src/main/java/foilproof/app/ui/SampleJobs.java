package foilproof.app.ui;

import foilproof.bench.JobSource;
import foilproof.bench.MemoryFiles;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.CodeSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/** The sample jobs that are packed into the program. */
final class SampleJobs {
    private static final String FOLDER = "sample-jobs/";

    private SampleJobs() {}

    /** A sample: its folder's name and its story's first line. */
    record Sample(String name, String story, JobSource source) {
        /** The name as words: "soil-probe" becomes "Soil probe". */
        String title() {
            String words = name.replace('-', ' ');
            return Character.toUpperCase(words.charAt(0)) + words.substring(1);
        }
    }

    /** All samples by name; empty where none are packed. */
    static List<Sample> all() {
        TreeMap<String, byte[]> files = new TreeMap<>();
        try {
            CodeSource from = SampleJobs.class.getProtectionDomain().getCodeSource();
            if (from != null) {
                URI uri = from.getLocation().toURI();
                Path path = Path.of(uri);
                if (Files.isDirectory(path)) {
                    readFolder(path, files);
                } else {
                    readJar(path, files);
                }
            }
        } catch (IOException | URISyntaxException | IllegalArgumentException e) {
            return List.of();
        }
        TreeSet<String> names = new TreeSet<>();
        for (String f : files.keySet()) {
            if (f.endsWith("/" + JobSource.JOB_FILE)) {
                names.add(f.substring(0, f.length() - JobSource.JOB_FILE.length() - 1));
            }
        }
        List<Sample> all = new ArrayList<>();
        for (String name : names) {
            MemoryFiles memory = new MemoryFiles();
            String story = "";
            for (var e : files.entrySet()) {
                if (e.getKey().startsWith(name + "/")) {
                    String file = e.getKey().substring(name.length() + 1);
                    memory = memory.with(file, e.getValue());
                    story = file.equals("README.md") ? firstSentence(e.getValue()) : story;
                }
            }
            all.add(new Sample(name, story, new JobSource(memory, JobSource.JOB_FILE)));
        }
        return all;
    }

    private static String firstSentence(byte[] readme) {
        StringBuilder paragraph = new StringBuilder();
        for (String line : new String(readme, java.nio.charset.StandardCharsets.UTF_8).split("\n")) {
            String s = line.strip();
            if (s.startsWith("#") || s.isEmpty() && paragraph.length() == 0) {
                continue;
            }
            if (s.isEmpty()) {
                break;
            }
            paragraph.append(paragraph.length() == 0 ? "" : " ").append(s);
        }
        int end = paragraph.indexOf(". ");
        return end < 0 ? paragraph.toString() : paragraph.substring(0, end + 1);
    }

    private static void readFolder(Path classes, Map<String, byte[]> files) throws IOException {
        Path root = classes.resolve(FOLDER);
        if (!Files.isDirectory(root)) {
            return;
        }
        try (Stream<Path> walk = Files.walk(root)) {
            for (Path p : walk.filter(Files::isRegularFile).toList()) {
                files.put(root.relativize(p).toString().replace('\\', '/'), Files.readAllBytes(p));
            }
        }
    }

    private static void readJar(Path jar, Map<String, byte[]> files) throws IOException {
        try (ZipFile zip = new ZipFile(jar.toFile())) {
            for (ZipEntry e : java.util.Collections.list(zip.entries())) {
                if (e.getName().startsWith(FOLDER) && !e.isDirectory()) {
                    try (InputStream in = zip.getInputStream(e)) {
                        files.put(e.getName().substring(FOLDER.length()), in.readAllBytes());
                    }
                }
            }
        }
    }
}

package foilproof.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ShortRunTest {
    private static final Map<String, String> NO_VARIABLES = Map.of();

    @TempDir
    Path folder;

    @Test
    void shouldStartASecondProcessWithTheSameJarAndArgumentsForADryRun() throws IOException {
        Path job = job(1_000);
        List<String> command = command(new String[] {"dryrun", job.toString(), "--json"}, "-jar", "foilproof.jar");
        assertThat(command)
                .startsWith("/opt/java")
                .endsWith(
                        "-jar",
                        Path.of("foilproof.jar").toAbsolutePath().toString(),
                        "dryrun",
                        job.toString(),
                        "--json");
        assertThat(command).contains("-XX:TieredStopAtLevel=1", "-D" + ShortRun.PARENT + "=" + own());
    }

    @Test
    void shouldWriteAnArchiveOfClassesInTheFirstRunOfAJarAndTakeItInLaterOnes() throws IOException {
        String[] dryRun = {"dryrun", job(1_000).toString()};
        Path jar = folder.resolve("foilproof.jar");
        assertThat(command(dryRun, "-jar", jar.toString())).noneMatch(option -> option.contains("Archive"));
        Files.writeString(jar, "a jar");
        List<String> first = Objects.requireNonNull(command(dryRun, "-jar", jar.toString()));
        String writes = first.stream()
                .filter(option -> option.startsWith("-XX:ArchiveClassesAtExit="))
                .findFirst()
                .orElseThrow();
        Path written = Path.of(writes.substring(writes.indexOf('=') + 1));
        Path archive = ShortRun.archivePath(jar);
        assertThat(written).isNotEqualTo(archive).hasParentRaw(folder);

        Files.writeString(written, "too few classes");
        ShortRun.keepArchive(first, ExitCode.BAD_INPUT);
        assertThat(written).doesNotExist();
        assertThat(archive).doesNotExist();

        Files.writeString(written, "classes");
        ShortRun.keepArchive(first, ExitCode.FINDINGS);
        assertThat(written).doesNotExist();
        assertThat(archive).hasContent("classes");
        assertThat(command(dryRun, "-jar", jar.toString()))
                .contains("-XX:SharedArchiveFile=" + archive, "-Xlog:disable")
                .noneMatch(option -> option.contains("AtExit"))
                .endsWith("-jar", jar.toString(), dryRun[0], dryRun[1]);
    }

    @Test
    void shouldWriteTheArchiveAgainWhereTheJarIsNewer() throws IOException {
        String[] dryRun = {"dryrun", job(1_000).toString()};
        Path jar = Files.writeString(folder.resolve("foilproof.jar"), "a jar");
        Path archive = Files.writeString(ShortRun.archivePath(jar), "classes of another build");
        Files.setLastModifiedTime(archive, FileTime.fromMillis(1_000_000));
        Files.setLastModifiedTime(jar, FileTime.fromMillis(2_000_000));
        assertThat(command(dryRun, "-jar", jar.toString()))
                .anyMatch(option -> option.startsWith("-XX:ArchiveClassesAtExit="))
                .noneMatch(option -> option.contains("SharedArchiveFile"));
    }

    @Test
    void shouldRunAllTheSameAndSayNothingWhereTheArchiveIsNoneOfThisJava() throws Exception {
        Path archive = Files.writeString(folder.resolve("foilproof.jsa"), "no classes at all");
        List<String> command = new java.util.ArrayList<>(java(EndsWithSeven.class));
        command.addAll(1, List.of("-XX:SharedArchiveFile=" + archive, "-Xshare:auto", "-Xlog:disable"));
        Path said = folder.resolve("said.txt");
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(said.toFile())
                .start();
        assertThat(process.waitFor()).isEqualTo(7);
        assertThat(said).isEmptyFile();
    }

    @Test
    void shouldKeepTheThoroughCompilerForALargeJob() throws IOException {
        Path job = job(700_000);
        assertThat(command(new String[] {"dryrun", job.toString()}, "-jar", "foilproof.jar"))
                .doesNotContain("-XX:TieredStopAtLevel=1")
                .contains("-XX:+UseSerialGC");
    }

    @Test
    void shouldStayInOneProcessForOtherCommandsAndWithOptionsOfAPersonsOwn() throws IOException {
        String[] dryRun = {"dryrun", job(1_000).toString()};
        assertThat(command(new String[] {"bench", "job.toml"}, "-jar", "foilproof.jar"))
                .isNull();
        assertThat(command(new String[] {"dryrun"}, "-jar", "foilproof.jar")).isNull();
        assertThat(command(dryRun, "-Xmx4g", "-jar", "foilproof.jar")).isNull();
        assertThat(command(dryRun, "-cp", "foilproof.jar")).isNull();
        assertThat(ShortRun.command(dryRun, Optional.of("/opt/java"), Optional.empty(), NO_VARIABLES))
                .isNull();
        assertThat(ShortRun.command(
                        dryRun,
                        Optional.of("/opt/java"),
                        Optional.of(new String[] {"-jar", "foilproof.jar", dryRun[0], dryRun[1]}),
                        Map.of("JAVA_TOOL_OPTIONS", "-Xmx4g")))
                .isNull();
    }

    @Test
    void shouldHandOnTheExitCodeOfTheSecondProcess() {
        assertThat(ShortRun.run(java(EndsWithSeven.class))).isEqualTo(7);
    }

    @Test
    void shouldRunInTheFirstProcessWhereNoSecondCanBeStarted() {
        assertThat(ShortRun.run(List.of(folder.resolve("no java here").toString())))
                .isNull();
    }

    @Test
    void shouldEndTheSecondProcessWhenTheFirstIsKilledOutright() throws Exception {
        Path note = folder.resolve("second.txt");
        List<String> command = java(StartsAnother.class);
        Process first = new ProcessBuilder(command)
                .redirectOutput(note.toFile())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        String pid = "";
        while (pid.isEmpty()) {
            assertThat(first.isAlive()).as("the first process still waits").isTrue();
            Thread.sleep(20);
            String text = Files.readString(note);
            pid = text.endsWith("\n") ? text.strip() : "";
        }
        ProcessHandle second = ProcessHandle.of(Long.parseLong(pid)).orElseThrow();
        first.destroyForcibly().waitFor();
        // waits as long as it takes: where the second never ends, the build's own limit tells
        second.onExit().get();
        assertThat(second.isAlive()).isFalse();
    }

    /** Ends at once. */
    static final class EndsWithSeven {
        private EndsWithSeven() {}

        public static void main(String[] args) {
            System.exit(7);
        }
    }

    /** A first process: starts one that tells its number and waits for ever. */
    static final class StartsAnother {
        private StartsAnother() {}

        public static void main(String[] args) {
            List<String> command = java(WaitsForEver.class);
            List<String> marked = new java.util.ArrayList<>(command);
            marked.add(1, "-D" + ShortRun.PARENT + "=" + own());
            Integer code = ShortRun.run(marked);
            System.exit(Objects.requireNonNullElse(code, 1));
        }
    }

    /** A second process. */
    static final class WaitsForEver {
        private WaitsForEver() {}

        public static void main(String[] args) throws InterruptedException {
            ShortRun.watchParent();
            System.out.println(own());
            System.out.flush();
            Thread.sleep(Long.MAX_VALUE);
        }
    }

    private static long own() {
        return ProcessHandle.current().pid();
    }

    private static List<String> java(Class<?> main) {
        return List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                main.getName());
    }

    private Path job(int bytes) throws IOException {
        Files.writeString(folder.resolve("a.ngc"), "G".repeat(bytes));
        return Files.writeString(folder.resolve("job.toml"), "job = \"a\"\n");
    }

    private static @Nullable List<String> command(String[] args, String... before) {
        String[] all = new String[before.length + args.length];
        System.arraycopy(before, 0, all, 0, before.length);
        System.arraycopy(args, 0, all, before.length, args.length);
        return ShortRun.command(args, Optional.of("/opt/java"), Optional.of(all), NO_VARIABLES);
    }
}

package foilproof.app.ui;

import static foilproof.app.ui.Hands.ask;
import static foilproof.app.ui.Hands.until;
import static org.assertj.core.api.Assertions.assertThat;

import foilproof.bench.DiskFiles;
import foilproof.bench.JobSource;
import foilproof.findings.Catalogue;
import foilproof.findings.Finding;
import foilproof.source.SourceFile;
import java.awt.Component;
import java.awt.event.KeyEvent;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;

/**
 * Findings while the checks still run, in a real window with real mouse and keys: what is found stands at once, what is
 * not judged again yet is said to be, and nothing goes and comes back. That a person must never be shown a finding as gone
 * that is still there follows from the design (findings appeared, gone, unchanged); there is no published source.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class LiveFindingsTest {
    @TempDir
    static @Nullable Path shared;

    private static @Nullable Hands hands;
    /** What was told while checks ran, newest last: the state of the list then. */
    private static final List<FindingRows> SEEN = new ArrayList<>();

    private static final List<Catalogue.Partial> TOLD = new ArrayList<>();
    private static boolean pictureWent;

    @BeforeAll
    static void open() throws Exception {
        Path folder = Objects.requireNonNull(shared);
        JobSource sample = SampleJobs.all().stream()
                .filter(s -> s.name().equals("thermistor-amplifier"))
                .findFirst()
                .orElseThrow()
                .source();
        for (SourceFile f : foilproof.bench.JobReader.read(sample, foilproof.bench.ReadOptions.DEFAULT)
                .inputs()) {
            Path to = folder.resolve(f.name());
            Files.createDirectories(Objects.requireNonNull(to.getParent()));
            Files.write(to, f.latin1().getBytes(StandardCharsets.ISO_8859_1));
        }
        Hands h = Hands.open(DiskFiles.source(folder));
        hands = h;
        ask(() -> {
            BenchModel m = h.bench.model;
            m.listen(c -> {
                pictureWent |= h.bench.board.shownImage() == null;
                if (c == BenchModel.Change.JUDGING) {
                    note(m);
                }
            });
            return true;
        });
    }

    private static void note(BenchModel m) {
        Catalogue.Partial base = m.judging();
        Catalogue.Partial now = m.whatIfJudging();
        if (now != null) {
            SEEN.add(FindingRows.of(Objects.requireNonNull(m.result()), m.whatIfResult(), now));
            TOLD.add(now);
        } else if (base != null) {
            SEEN.add(FindingRows.of(base, m.earlier()));
            TOLD.add(base);
        }
    }

    @AfterAll
    static void close() {
        if (hands != null) {
            hands.close();
        }
    }

    private static Hands h() {
        return Objects.requireNonNull(hands);
    }

    private static void forget() {
        ask(() -> {
            SEEN.clear();
            TOLD.clear();
            pictureWent = false;
            return true;
        });
    }

    private static Set<String> keys(FindingRows rows, FindingRows.State state) {
        Set<String> keys = new HashSet<>();
        rows.rows().stream().filter(r -> r.state() == state).forEach(r -> keys.add(FindingRows.key(r.finding())));
        return keys;
    }

    @Test
    @Order(1)
    void shouldTellWhatAMovedSliderDoesBeforeAllChecksAreThroughAndTakeNothingBack() {
        h().atBoard();
        h().keys(KeyEvent.VK_W);
        Component slider = h().named("Z error of run 1");
        h().show(slider);
        forget();
        h().dragPixels(slider, slider.getWidth() / 2, 6, slider.getWidth() / 5, 6);
        until("findings of the what-if", () -> h().bench.model.whatIfResult() != null);
        h().keys(KeyEvent.VK_B);
        until("back at the job", () -> h().bench.model.whatIfResult() == null);
        forget();
        h().keys(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        until("findings of what was undone", () -> h().bench.model.whatIfResult() != null);
        FindingRows end = ask(() -> FindingRows.of(
                Objects.requireNonNull(h().bench.model.result()),
                h().bench.model.whatIfResult(),
                null));
        List<FindingRows> seen = ask(() -> List.copyOf(SEEN));
        assertThat(seen).as("told while checks ran").isNotEmpty();
        assertThat(end.open()).isZero();
        assertThat(end.appeared())
                .as("an engraver 0.09 mm too high leaves foil")
                .isPositive();
        assertThat(seen).as("appeared before all were through").anyMatch(s -> s.appeared() > 0 && !s.equals(end));
        for (FindingRows s : seen) {
            assertThat(keys(s, FindingRows.State.GONE))
                    .as("gone stays gone")
                    .isSubsetOf(keys(end, FindingRows.State.GONE));
            assertThat(keys(s, FindingRows.State.STANDS))
                    .as("what stands is not taken back")
                    .doesNotContainAnyElementsOf(keys(end, FindingRows.State.GONE));
        }
        assertThat(ask(() -> TOLD.get(TOLD.size() - 1).open()))
                .as("nothing is open at the end")
                .isEmpty();
    }

    @Test
    @Order(2)
    void shouldKeepPictureAndFindingsWhileTheFilesAreReadAgainAndSayThatTheyAreBeingJudged() throws Exception {
        h().keys(KeyEvent.VK_B);
        until("back at the job", () -> h().bench.model.whatIfResult() == null);
        h().settled();
        List<Finding> before = ask(() ->
                Objects.requireNonNull(h().bench.model.result()).document().findings());
        assertThat(before).isNotEmpty();
        Object scene = ask(() -> h().bench.model.scene());
        forget();
        Path program;
        try (var files = Files.walk(Objects.requireNonNull(shared))) {
            program = files.filter(f -> f.toString().endsWith(".ngc"))
                    .sorted()
                    .findFirst()
                    .orElseThrow();
        }
        Files.writeString(
                program, Files.readString(program, StandardCharsets.ISO_8859_1) + "\n", StandardCharsets.ISO_8859_1);
        until("the changed job is read", () -> h().bench.model.scene() != scene);
        until("and judged", () -> h().bench.model.result() != null);
        List<FindingRows> seen = ask(() -> List.copyOf(SEEN));
        assertThat(ask(() -> pictureWent)).as("the picture stays").isFalse();
        assertThat(seen).as("told while checks ran").isNotEmpty();
        Set<String> then = new HashSet<>();
        before.forEach(f -> then.add(FindingRows.key(f)));
        for (FindingRows s : seen) {
            Set<String> now = new HashSet<>();
            s.rows().forEach(r -> now.add(FindingRows.key(r.finding())));
            // An empty line at the end changes nothing: no finding may go, not for a moment.
            assertThat(now).containsAll(then);
        }
    }
}

package foilproof.app.ui;

import static foilproof.app.ui.Hands.ask;
import static foilproof.app.ui.Hands.until;
import static org.assertj.core.api.Assertions.assertThat;

import foilproof.app.practice.Practice;
import foilproof.bench.AcceptedFile;
import java.awt.Component;
import java.awt.Point;
import java.awt.event.KeyEvent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import java.util.prefs.Preferences;
import javax.swing.JLabel;
import javax.swing.JTextArea;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;

/** In order, since a window opens on its start page once. Start page, report, screenshot, accepting, reload and the exercises, by keys and clicks. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class HabitsTest {
    private static @Nullable Hands hands;

    @TempDir
    static @Nullable Path shared;

    @BeforeAll
    static void open() {
        hands = Hands.open(null);
        Preferences.userRoot().node("foilproof/bench").put("out", folder().toString());
    }

    @AfterAll
    static void close() {
        Hands h = hands;
        if (h != null) {
            h.close();
        }
    }

    private static Hands h() {
        return Objects.requireNonNull(hands);
    }

    private static Path folder() {
        return Objects.requireNonNull(shared);
    }

    private static String told() {
        return ask(() -> ((JLabel) Objects.requireNonNull(Hands.find(h().bench.frame, "told"))).getText());
    }

    private static void sample(String name, String title) {
        SampleJobs.Sample s = SampleJobs.all().stream()
                .filter(x -> x.name().equals(name))
                .findFirst()
                .orElseThrow();
        ask(() -> {
            // The same sample may lie there already: only what is read now counts.
            h().bench.model.setScene(null, false);
            h().bench.open(s.source());
            return true;
        });
        until(title, () -> {
            var scene = h().bench.model.scene();
            var result = h().bench.model.result();
            return scene != null
                    && scene.job().name().equals(title)
                    && result != null
                    && result.document().job().equals(title);
        });
        h().settled();
        h().atBoard();
    }

    @Test
    @Order(1)
    void shouldOfferSamplesAndPracticeOnTheStartPageAndOpenOneByAClick() {
        assertThat(h().named("practice from the start page").isShowing()).isTrue();
        Component first = h().named("sample thermistor-amplifier");
        h().show(first);
        h().click(first);
        until("the sample is on the bench", () -> h().bench.model.scene() != null);
        h().settled();
        assertThat(ask(() ->
                        Objects.requireNonNull(h().bench.model.scene()).job().name()))
                .isEqualTo("Thermistor amplifier");
    }

    @Test
    @Order(2)
    void shouldWriteAScreenshotAndAReportByKeysAndSayWhere() {
        sample("thermistor-amplifier", "Thermistor amplifier");
        h().keys(KeyEvent.VK_CONTROL, KeyEvent.VK_S);
        until("the picture is written", () -> told().startsWith("Picture written: " + folder()));
        assertThat(folder().resolve("foilproof-thermistor-amplifier.png")).exists();
        h().atBoard();
        h().keys(KeyEvent.VK_CONTROL, KeyEvent.VK_R);
        Path out = folder().resolve("report");
        Hands.answerChooser(h(), out);
        until("the report is written", () -> told().startsWith("Report written: " + out.resolve("report.html")));
        assertThat(out.resolve("report.html")).exists();
        assertThat(out.resolve("result.json")).exists();
    }

    @Test
    @Order(3)
    void shouldAcceptASamplesFindingInACopyOfItAndFollowItsFiles() throws Exception {
        sample("fine-pitch-breakout", "Fine-pitch pressure breakout");
        h().keys(KeyEvent.VK_N);
        until("a finding is chosen", () -> h().bench.model.chosen() == 0);
        h().keys(KeyEvent.VK_I);
        until("asked for a copy", () -> java.util.Arrays.stream(java.awt.Window.getWindows())
                .anyMatch(w -> w.isShowing() && w instanceof javax.swing.JDialog && w.isFocused()));
        Hands.pause(300);
        h().keys(KeyEvent.VK_ENTER);
        Path copy = folder().resolve("copy");
        Hands.answerChooser(h(), copy);
        Component reason = h().anywhere("reason");
        until("the reason is asked", reason::isFocusOwner);
        h().type("it is only a trial");
        h().keys(KeyEvent.VK_ENTER);
        until("accepted", () -> told().startsWith("Accepted: stored in " + AcceptedFile.NAME));
        assertThat(copy.resolve(AcceptedFile.NAME)).exists();
        assertThat(Files.readString(copy.resolve(AcceptedFile.NAME))).contains("it is only a trial");
        until("the copy is on the bench, the finding accepted", () -> {
            var r = h().bench.model.result();
            return r != null && !r.document().approval().accepted().isEmpty();
        });
        try (var all = Files.list(folder())) {
            assertThat(all.map(p -> p.getFileName().toString()).filter(n -> n.startsWith(".foilproof")))
                    .isEmpty();
        }
        // A file that changes on disk is read again; camera and moment stay, the acceptance is void.
        h().atBoard();
        h().keys(KeyEvent.VK_1);
        until("from above", () -> h().bench.board.camera().elevationRad() > 1.57);
        Point strip = new Point(h().named("run strip").getWidth() / 2, 36);
        h().clickPixel(h().named("run strip"), strip.x, strip.y);
        double before = ask(() -> h().bench.model.timeS());
        Hands.pause(1500);
        Path program = copy.resolve("copper.ngc");
        Files.writeString(program, Files.readString(program) + "\n(changed)\n");
        until("read again", () -> {
            var r = h().bench.model.result();
            return r != null && r.document().approval().accepted().isEmpty();
        });
        double after = ask(() -> h().bench.model.timeS());
        assertThat(after).isEqualTo(before);
        assertThat(ask(() -> h().bench.board.camera().elevationRad())).isGreaterThan(1.57);
    }

    @Test
    @Order(4)
    void shouldHideCutsAndFindingsUntilAnExerciseIsPredictedAndThenTellWhatWasPlanted() throws Exception {
        sample("thermistor-amplifier", "Thermistor amplifier");
        h().keys(KeyEvent.VK_H);
        Component begin = h().named("begin exercise");
        h().show(begin);
        h().click(begin);
        Path at = folder().resolve("e1");
        Hands.answerChooser(h(), at);
        until("the blank lies on the bench", () -> {
            var s = h().bench.model.scene();
            return h().bench.model.blind() && s != null && s.job().name().equals("Plant-pot moisture sensor");
        });
        until("no cut is shown", () -> {
            var b = h().bench.model.board();
            return b != null
                    && b.timeS() == 0
                    && b.spot(b.baseConditions(), 21, 7).material() == foilproof.app.viewer.BoardSnapshot.Material.FOIL;
        });
        assertThat(ask(() -> h().bench.model.result() == null)).isTrue();
        h().atBoard();
        h().keys(KeyEvent.VK_1);
        Hands.pause(800);
        Point p = h().onBoard(21, 7);
        h().clickPixel(h().bench.board, p.x, p.y);
        until("asked", () -> h().bench.model.asked() != null);
        h().choose(h().named("cause"), "depth-slip");
        Component mark = h().named("mark");
        h().show(mark);
        h().click(mark);
        Component number = h().named("number foil_left");
        h().show(number);
        h().click(number);
        h().type("0.0074");
        Component predict = h().named("predict");
        h().show(predict);
        h().click(predict);
        JTextArea score = (JTextArea) h().named("score");
        until("the score", () -> score.isShowing() && score.getText().contains("Score"));
        assertThat(ask(() -> score.getText()))
                .contains("What you saw:\n- depth-slip", "0.0074 mm (100 %)", "What you cried wolf about: nothing");
        until(
                "the findings come",
                () -> h().bench.model.result() != null
                        && !h().bench.model.findings().isEmpty());
        assertThat(Practice.open(at).recorded().marks()).hasSize(1);
    }

    @Test
    @Order(5)
    void shouldJudgeARepairAsNotMadeAndThenAsMade() throws Exception {
        // Goes on with the exercise of the test before: it is predicted, and nothing is mended yet.
        Path at = folder().resolve("e1");
        Component repair = h().named("repair");
        JTextArea score = (JTextArea) h().named("score");
        until("the repair may be judged", () -> repair.isShowing() && repair.isEnabled());
        h().show(repair);
        h().click(repair);
        until("not mended", () -> score.getText().contains("Not mended yet."));
        // The copper was to be cut 0.100 deep; a slip made it 0.010.
        var before = ask(() -> h().bench.model.scene());
        try (var files = Files.list(at)) {
            for (Path f : files.filter(p -> p.toString().endsWith(".ngc")).toList()) {
                Files.writeString(f, Files.readString(f).replace("Z-0.010", "Z-0.100"));
            }
        }
        until(
                "the bench follows",
                () -> h().bench.model.scene() != before && h().bench.model.result() != null);
        h().show(repair);
        h().click(repair);
        until("mended", () -> score.getText().contains("Mended without new faults."));
    }
}

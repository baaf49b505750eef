package foilproof.app.ui;

import static foilproof.app.ui.Hands.ask;
import static foilproof.app.ui.Hands.until;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import foilproof.bench.DiskFiles;
import java.awt.Component;
import java.awt.Point;
import java.awt.event.KeyEvent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import java.util.prefs.Preferences;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JTable;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A job on disk, opened as from the command line: moved on its blank, measured, filtered, watched, written; by hand. */
class HandsOnTest {
    private static @Nullable Hands hands;

    @TempDir
    static @Nullable Path shared;

    @BeforeAll
    static void open() throws Exception {
        Path job = Files.createDirectory(folder().resolve("job"));
        Files.writeString(job.resolve("job.toml"), QuestionsTest.JOB);
        Files.writeString(job.resolve("copper.ngc"), QuestionsTest.COPPER);
        Files.writeString(job.resolve("bores.ngc"), QuestionsTest.BORES);
        Preferences.userRoot().node("foilproof/bench").put("out", folder().toString());
        hands = Hands.open(DiskFiles.source(job));
    }

    @AfterAll
    static void close() {
        Hands h = hands;
        if (h != null) {
            h.close();
        }
    }

    @BeforeEach
    void backToTheJob() {
        h().atBoard();
        h().keys(KeyEvent.VK_ESCAPE);
        h().keys(KeyEvent.VK_B);
        h().keys(KeyEvent.VK_U);
        until(
                "the job's own board",
                () -> h().bench.model.whatIf().equals(BenchModel.WhatIf.NONE)
                        && h().bench.model.drawnScene() == h().bench.model.scene());
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

    private static BenchModel.Work work() {
        return h().bench.model.whatIf().swept().work();
    }

    private static int rows() {
        return ((JList<?>) h().named("findings")).getModel().getSize();
    }

    @Test
    void shouldTellTheZWindowBeforeTheListAndGoToItsPlaceByAClick() {
        JTextArea words = (JTextArea) h().named("z window words");
        until("the window in words", () -> words.isShowing() && words.getText().startsWith("Z window "));
        assertThat(ask(() -> "" + words.getText())).contains("mm", "thou", "run");
        Component list = h().named("findings");
        assertThat(ask(() -> words.getLocationOnScreen().y)).isLessThan(ask(() -> list.getLocationOnScreen().y));
        h().click(h().named("z window bar"));
        until("the place that ends the window", () -> h().bench.model.asked() != null);
    }

    @Test
    void shouldMoveTheJobByADragAndTurnItByADragWithCtrl() {
        h().fromAbove();
        h().keys(KeyEvent.VK_J);
        until("the job is moved", () -> h().bench.model.hand() == BenchModel.Hand.ZERO);
        Point a = h().onBoard(8, 8);
        Point b = h().onBoard(10, 9);
        h().dragPixels(h().bench.board, a.x, a.y, b.x, b.y);
        until("moved", () -> Math.abs(work().zeroXMm() - 2) < 0.1 && Math.abs(work().zeroYMm() - 1) < 0.1);
        until(
                "swept there",
                () -> h().bench.model.drawnScene() != h().bench.model.scene());
        until("drawn there", () -> {
            var board = h().bench.model.board();
            // the loop's lower run lay at Y 4: it lies at Y 5 now
            return board != null
                    && board.spot(board.baseConditions(), 12, 4 + work().zeroYMm())
                                    .material()
                            == foilproof.app.viewer.BoardSnapshot.Material.SUBSTRATE;
        });
        // The zero lies at (2, 1) now: from straight right of it to straight above it is a quarter turn.
        double zx = ask(() -> work().zeroXMm());
        double zy = ask(() -> work().zeroYMm());
        Point right = h().onBoard(zx + 6, zy);
        Point up = h().onBoard(zx, zy + 6);
        h().dragHolding(KeyEvent.VK_CONTROL, h().bench.board, right.x, right.y, up.x, up.y);
        until("turned", () -> Math.abs(Math.toDegrees(work().turnRad()) - 90) < 3);
        h().keys(KeyEvent.VK_J);
        until("asking again", () -> h().bench.model.hand() == BenchModel.Hand.ASK);
        h().keys(KeyEvent.VK_CONTROL, KeyEvent.VK_Z);
        until("not turned", () -> work().turnRad() == 0 && work().zeroXMm() != 0);
    }

    @Test
    void shouldTurnTheJobByATypedAngleAndSayWhetherItFits() {
        h().keys(KeyEvent.VK_Y);
        h().typeInto(h().named("zero turned, deg"), "90.00");
        JTextArea says = (JTextArea) h().named("zero says");
        // turned about (0, 0) everything lies left of X 0: the loop's far run, Y 12 and half a groove, is out by that
        until(
                "it does not fit",
                () -> says.getText().contains("do not fit: 12.08 mm beyond")
                        || says.getText().contains("do not fit: 14."));
        assertThat(ask(() -> Math.toDegrees(work().turnRad()))).isEqualTo(90, within(1e-9));
    }

    @Test
    void shouldFindTheNearestClearSpotOrSayThatThereIsNone() {
        h().keys(KeyEvent.VK_Y);
        Component again = h().named("clear spot again");
        h().show(again);
        h().click(again);
        JTextArea says = (JTextArea) h().named("clear spot says");
        // 16 x 8 mm and more on a blank of 24 x 16: no second one finds room
        until("none", () -> says.getText().startsWith("No clear spot"));
        assertThat(ask(() -> work().zeroXMm())).isZero();
    }

    @Test
    void shouldReorderProgramsByDraggingOne() {
        h().keys(KeyEvent.VK_Y);
        JList<?> order = (JList<?>) h().named("programs in order");
        h().show(order);
        int y0 = ask(() -> order.getCellBounds(0, 0).y + 6);
        int y1 = ask(() -> order.getCellBounds(1, 1).y + 8);
        h().dragPixels(order, 20, y1, 20, y0);
        until("bores first", () -> work().order().equals(java.util.List.of(1, 0)));
    }

    @Test
    void shouldSetTheBlankAndTheRunoutByOnePress() {
        h().keys(KeyEvent.VK_W);
        Component blank = h().named("blank 1.0");
        h().show(blank);
        h().click(blank);
        until(
                "half a millimetre thinner",
                () -> Math.abs(h().bench.model.whatIf().thicknessChangeMm() + 0.5) < 1e-9);
        Component runout = h().named("runout 0.030");
        h().show(runout);
        h().click(runout);
        until(
                "every cutter runs out",
                () -> h().bench.model.whatIf().swept().runoutMm().size() == 2
                        && h().bench.model.whatIf().swept().runoutMm().values().stream()
                                .allMatch(v -> v == 0.03));
        until(
                "swept with it",
                () -> h().bench.model.drawnScene() != h().bench.model.scene());
    }

    @Test
    void shouldFilterByLineToolHolesAndGapsAsTyped() {
        int all = ask(HandsOnTest::rows);
        for (String[] typed : new String[][] {{"T2", "T"}, {"line 431", "none"}, {"holes < 0.9", "holes"}}) {
            h().keys(KeyEvent.VK_SLASH);
            until("the filter has the focus", h().named("filter")::isFocusOwner);
            h().typeJust((JTextField) h().named("filter"), typed[0]);
            if (typed[1].equals("none")) {
                until("nothing in that line", () -> rows() == 0);
            } else if (typed[1].equals("holes")) {
                // one bore of 1/32 in, 0.794 mm
                until("the hole", () -> rows() == 1);
            } else {
                until("fewer", () -> rows() < all);
            }
            h().keys(KeyEvent.VK_ESCAPE);
            until("all again", () -> rows() == all);
            h().atBoard();
        }
    }

    @Test
    void shouldSearchTheListOfKeys() {
        h().keys(KeyEvent.VK_F1);
        JTextField search = (JTextField) h().anywhere("search the keys");
        JTable table = (JTable) h().anywhere("keys");
        until("the search has the focus", search::isFocusOwner);
        int all = ask(table::getRowCount);
        assertThat(all).isGreaterThan(50);
        h().typeJust(search, "ruler");
        until("only the ruler", () -> table.getRowCount() >= 1 && table.getRowCount() < 4);
        assertThat(ask(() -> String.valueOf(table.getValueAt(0, 0)))).isEqualTo("R");
        h().keys(KeyEvent.VK_ESCAPE);
        until("closed", () -> !table.isShowing());
    }

    @Test
    void shouldMakeTextLargerAndSmallerByKeysWithThePanelsRoundIt() {
        JTextArea detail = (JTextArea) h().named("finding text");
        Component left = h().named("findings panel");
        float before = ask(() -> detail.getFont().getSize2D());
        int wide = ask(left::getWidth);
        h().keys(KeyEvent.VK_CONTROL, KeyEvent.VK_EQUALS);
        until("larger text", () -> detail.getFont().getSize2D() > before * 1.15);
        until("a wider panel", () -> left.getWidth() > wide * 1.1);
        assertThat(told()).startsWith("Text ");
        h().atBoard();
        h().keys(KeyEvent.VK_CONTROL, KeyEvent.VK_MINUS);
        until(
                "as before",
                () -> Math.abs(detail.getFont().getSize2D() - before) < 0.6 && Math.abs(left.getWidth() - wide) < 8);
    }

    @Test
    void shouldSayInWordsWhySomethingCannotBeWritten() throws Exception {
        Path file = folder().resolve("a-file");
        Files.writeString(file, "in the way");
        h().keys(KeyEvent.VK_S);
        Hands.answerChooser(h(), file.resolve("board.png"));
        until("the picture is refused", () -> told().startsWith("The picture could not be written to "));
        assertThat(told()).endsWith(".").doesNotContain("Exception");
        h().atBoard();
        h().keys(KeyEvent.VK_CONTROL, KeyEvent.VK_SHIFT, KeyEvent.VK_S);
        Hands.answerChooser(h(), folder());
        until("the copy is refused", () -> told().startsWith("Not copied to "));
        assertThat(told()).contains("not empty, and nothing is overwritten");
        h().atBoard();
        h().keys(KeyEvent.VK_CONTROL, KeyEvent.VK_R);
        Hands.answerChooser(h(), file.resolve("report"));
        until("the report is refused", () -> told().startsWith("The report could not be written to "));
        assertThat(told()).doesNotContain("Exception");
        assertThat(Files.readString(file)).isEqualTo("in the way");
    }

    @Test
    void shouldFollowTheFilesOfAJobThatTheCommandLineOpened() throws Exception {
        h().keys(KeyEvent.VK_1);
        until("from above", () -> h().bench.board.camera().elevationRad() > 1.57);
        Path program = folder().resolve("job").resolve("copper.ngc");
        var scene = ask(() -> h().bench.model.scene());
        // At once: a change between the reading and the first look at the files is followed, too. The shallow groove
        // goes as deep as the others: nothing is left in it then.
        Files.writeString(program, Files.readString(program).replace("G1 Z-0.01 F60", "G1 Z-0.1 F60"));
        until(
                "read again",
                () -> h().bench.model.scene() != scene && h().bench.model.result() != null);
        until("no foil is left", () -> h().bench.model.findings().stream()
                .noneMatch(f -> f.kind().equals("foil-left")));
        assertThat(ask(() -> h().bench.board.camera().elevationRad())).isGreaterThan(1.57);
        var again = ask(() -> h().bench.model.scene());
        Files.writeString(program, QuestionsTest.COPPER);
        until(
                "and back",
                () -> h().bench.model.scene() != again && h().bench.model.result() != null);
    }

    @Test
    void shouldMeasureTheCopperThroughAPlaceExactToThePaths() {
        h().fromAbove();
        // Between the loop's lower run at Y 4 and the bore's land nothing is cut: from the groove at X 4 to the shallow
        // one at X 12 copper is not parted at the foil bottom, so the narrowest chord at (5, 8) runs from the left
        // groove.
        Point p = h().onBoard(22, 8);
        h().clickPixel(h().bench.board, p.x, p.y);
        JTextArea answer = (JTextArea) h().named("answer");
        until("answered", () -> answer.getText().contains("Copper through this place: "));
        // From the loop's right run at X 20 (half of 0.1443 at the foil bottom) to the edge at X 24: 3.928 mm.
        assertThat(ask(() -> "" + answer.getText())).contains("Copper through this place: 3.928");
    }
}

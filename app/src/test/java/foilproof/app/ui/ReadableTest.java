package foilproof.app.ui;

import static foilproof.app.ui.Hands.ask;
import static org.assertj.core.api.Assertions.assertThat;

import foilproof.app.viewer.OverlayPainter;
import java.awt.Color;
import java.awt.Component;
import java.awt.Container;
import java.util.ArrayList;
import java.util.List;
import javax.swing.AbstractButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JTable;
import javax.swing.UIManager;
import javax.swing.text.JTextComponent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Every word of the window in both themes, on an ordinary screen and on one of twice as many lines: its size, and its
 * contrast by WCAG 2.1 (at least 4.5:1; formula from memory, as in {@link ColoursTest}).
 */
class ReadableTest {
    /** The smallest text, pixels of an ordinary screen. */
    private static final double LEAST_PX = 10.5;

    private static void words(Container in, List<JComponent> out) {
        for (Component c : in.getComponents()) {
            boolean says =
                    c instanceof JLabel l && l.getText() != null && !l.getText().isBlank()
                            || c instanceof AbstractButton b
                                    && b.getText() != null
                                    && !b.getText().isBlank()
                            || c instanceof JTextComponent
                            || c instanceof JList
                            || c instanceof JTable
                            || c instanceof JComboBox;
            if (says && c.isEnabled() && c instanceof JComponent j) {
                out.add(j);
            }
            if (c instanceof Container inner) {
                words(inner, out);
            }
        }
    }

    private static Color ground(Component c) {
        Component at = c;
        while (at != null && !(at.isOpaque() && at.getBackground() != null)) {
            at = at.getParent();
        }
        return at == null ? Color.WHITE : at.getBackground();
    }

    @ParameterizedTest
    @CsvSource({"true, 1", "false, 1", "true, 2", "false, 2"})
    void shouldWriteEveryWordLargeEnoughAndWithEnoughContrast(boolean dark, double scale) {
        SampleJobs.Sample sample = SampleJobs.all().get(0);
        Hands h = Hands.open(sample.source(), dark, scale);
        try {
            List<JComponent> all = new ArrayList<>();
            ask(() -> {
                words(h.bench.frame.getContentPane(), all);
                return true;
            });
            assertThat(all).hasSizeGreaterThan(80);
            for (JComponent c : all) {
                String who = c.getClass().getSimpleName() + " " + c.getName() + " "
                        + (c instanceof AbstractButton b ? b.getText() : c instanceof JLabel l ? l.getText() : "");
                assertThat(ask(() -> (double) c.getFont().getSize2D()))
                        .as("size of %s", who)
                        .isGreaterThanOrEqualTo(LEAST_PX * scale);
                assertThat(ask(() -> ColoursTest.contrast(c.getForeground(), ground(c))))
                        .as("contrast of %s, %s on %s", who, c.getForeground(), ask(() -> ground(c)))
                        .isGreaterThanOrEqualTo(4.5);
            }
            for (String what : new String[] {"List.selection", "Table.selection", "TextArea.selection"}) {
                assertThat(ColoursTest.contrast(
                                UIManager.getColor(what + "Foreground"), UIManager.getColor(what + "Background")))
                        .as(what)
                        .isGreaterThanOrEqualTo(4.5);
            }
            assertThat(ColoursTest.contrast(
                            UIManager.getColor("ToggleButton.selectedForeground"),
                            UIManager.getColor("ToggleButton.selectedBackground")))
                    .isGreaterThanOrEqualTo(4.5);
            assertThat(ColoursTest.contrast(
                            UIManager.getColor("TextField.placeholderForeground"),
                            UIManager.getColor("TextField.background")))
                    .isGreaterThanOrEqualTo(4.5);
            assertThat(ColoursTest.contrast(
                            UIManager.getColor("ToolTip.foreground"), UIManager.getColor("ToolTip.background")))
                    .isGreaterThanOrEqualTo(4.5);
        } finally {
            h.close();
            Px.choose(1);
            ask(() -> {
                Theme.setUp(true);
                return true;
            });
        }
    }

    @Test
    void shouldNameToolRunsOnTheirColoursWithEnoughContrast() {
        for (int i = 0; i < 8; i++) {
            Color c = OverlayPainter.toolColour(i);
            assertThat(ColoursTest.contrast(OverlayPainter.inkOn(c), c))
                    .as("run %d", i)
                    .isGreaterThanOrEqualTo(4.5);
        }
    }
}

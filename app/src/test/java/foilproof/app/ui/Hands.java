package foilproof.app.ui;

import static org.junit.jupiter.api.Assumptions.assumeFalse;

import foilproof.bench.JobSource;
import foilproof.bench.ReadOptions;
import java.awt.AWTException;
import java.awt.Component;
import java.awt.Container;
import java.awt.GraphicsEnvironment;
import java.awt.Point;
import java.awt.Robot;
import java.awt.Window;
import java.awt.event.InputEvent;
import java.awt.event.KeyEvent;
import java.nio.file.Path;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JScrollPane;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/** A real bench window and a hand that works it by events of the window system. */
final class Hands {
    final BenchWindow bench;
    private final Robot robot;

    private Hands(BenchWindow bench, Robot robot) {
        this.bench = bench;
        this.robot = robot;
    }

    /** Opens a window of 1280 x 720 on a job, or on nothing, and waits for its first picture and findings. */
    static Hands open(@Nullable JobSource job) {
        return open(job, true, 1);
    }

    /** The same in a theme and with all sizes times this, as on a screen of so many more lines. */
    static Hands open(@Nullable JobSource job, boolean dark, double scale) {
        assumeFalse(GraphicsEnvironment.isHeadless(), "needs a display");
        Robot robot;
        try {
            robot = new Robot();
        } catch (AWTException e) {
            throw new IllegalStateException(e);
        }
        robot.setAutoDelay(25);
        BenchWindow window = ask(() -> {
            // As the person sees it: the window's own fonts and colours.
            Px.choose(scale);
            Theme.setUp(dark);
            BenchWindow w = new BenchWindow(ReadOptions.DEFAULT);
            w.model.setLook(w.model.look().withDark(dark));
            w.frame.setSize(1280, 720);
            w.open(job);
            w.frame.setLocation(0, 0);
            w.frame.toFront();
            return w;
        });
        Hands hands = new Hands(window, robot);
        if (job != null) {
            hands.settled();
        }
        return hands;
    }

    /** Waits until the job on the bench is drawn and checked. */
    void settled() {
        until("the first picture", () -> {
            var q = bench.board.shownRequest();
            return bench.board.framesShown() > 0 && q != null && bench.model.scene() != null;
        });
        until("the findings", () -> bench.model.result() != null);
    }

    void close() {
        ask(() -> {
            bench.frame.dispose();
            return true;
        });
    }

    static <T> T ask(Callable<T> question) {
        FutureTask<T> task = new FutureTask<>(question);
        if (SwingUtilities.isEventDispatchThread()) {
            task.run();
        } else {
            SwingUtilities.invokeLater(task);
        }
        try {
            return task.get();
        } catch (InterruptedException | ExecutionException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Waits; generous, since the machine may be busy: only what never happens fails. */
    static void until(String what, Callable<Boolean> done) {
        for (int i = 0; i < 1200; i++) {
            if (ask(done)) {
                return;
            }
            pause(50);
        }
        throw new AssertionError("never happened: " + what);
    }

    static void pause(int ms) {
        try {
            Thread.sleep(ms);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    Component named(String name) {
        return ask(() -> Objects.requireNonNull(find(bench.frame, name), name));
    }

    static @Nullable Component find(Container in, String name) {
        for (Component c : in.getComponents()) {
            if (name.equals(c.getName())) {
                return c;
            }
            Component inside = c instanceof Container inner ? find(inner, name) : null;
            if (inside != null) {
                return inside;
            }
        }
        return null;
    }

    /** A component of any open window of this program, once it is there. */
    Component anywhere(String name) {
        until(name + " is there", () -> everywhere(name) != null);
        return ask(() -> Objects.requireNonNull(everywhere(name)));
    }

    private static @Nullable Component everywhere(String name) {
        for (Window w : Window.getWindows()) {
            Component c = w.isShowing() ? find(w, name) : null;
            if (c != null) {
                return c;
            }
        }
        return null;
    }

    /** Scrolls a component into sight, as the wheel would. */
    void show(Component c) {
        until(c.getName() + " is shown", c::isShowing);
        pause(400);
        ask(() -> {
            ((JComponent) c).scrollRectToVisible(new java.awt.Rectangle(0, 0, c.getWidth(), c.getHeight()));
            // A list that scrolls by itself stands in a column that scrolls, too.
            if (SwingUtilities.getAncestorOfClass(JScrollPane.class, c) instanceof JScrollPane own) {
                own.scrollRectToVisible(new java.awt.Rectangle(0, 0, own.getWidth(), own.getHeight()));
            }
            return true;
        });
        pause(250);
    }

    void move(Component c, double x, double y) {
        Point p = ask(c::getLocationOnScreen);
        robot.mouseMove(p.x + (int) (c.getWidth() * x), p.y + (int) (c.getHeight() * y));
        pause(60);
    }

    void click(Component c, double x, double y) {
        move(c, x, y);
        press();
    }

    void click(Component c) {
        click(c, 0.5, 0.5);
    }

    void clickPixel(Component c, int x, int y) {
        Point p = ask(c::getLocationOnScreen);
        robot.mouseMove(p.x + x, p.y + y);
        pause(60);
        press();
    }

    private void press() {
        robot.mousePress(InputEvent.BUTTON1_DOWN_MASK);
        pause(40);
        robot.mouseRelease(InputEvent.BUTTON1_DOWN_MASK);
        pause(60);
    }

    /** Drags with a key held down. */
    void dragHolding(int key, Component c, int x0, int y0, int x1, int y1) {
        robot.keyPress(key);
        dragPixels(c, x0, y0, x1, y1);
        robot.keyRelease(key);
    }

    /** Drags between two pixels of a component. */
    void dragPixels(Component c, int x0, int y0, int x1, int y1) {
        Point p = ask(c::getLocationOnScreen);
        robot.mouseMove(p.x + x0, p.y + y0);
        pause(60);
        robot.mousePress(InputEvent.BUTTON1_DOWN_MASK);
        for (int i = 1; i <= 8; i++) {
            robot.mouseMove(p.x + x0 + (x1 - x0) * i / 8, p.y + y0 + (y1 - y0) * i / 8);
            pause(30);
        }
        robot.mouseRelease(InputEvent.BUTTON1_DOWN_MASK);
        pause(60);
    }

    void wheel(int notches) {
        robot.mouseWheel(notches);
    }

    void keys(int... keys) {
        for (int k : keys) {
            robot.keyPress(k);
        }
        for (int i = keys.length - 1; i >= 0; i--) {
            robot.keyRelease(keys[i]);
        }
        pause(40);
    }

    /** Types letters, digits, point, comma, space and minus. */
    void type(String words) {
        for (char c : words.toCharArray()) {
            if (c == '<') {
                keys(KeyEvent.VK_SHIFT, KeyEvent.VK_COMMA);
                continue;
            }
            int key =
                    switch (c) {
                        case '/' -> KeyEvent.VK_SLASH;
                        case '.' -> KeyEvent.VK_PERIOD;
                        case ',' -> KeyEvent.VK_COMMA;
                        case '-' -> KeyEvent.VK_MINUS;
                        case ' ' -> KeyEvent.VK_SPACE;
                        default -> KeyEvent.getExtendedKeyCodeForChar(c);
                    };
            if (Character.isUpperCase(c)) {
                keys(KeyEvent.VK_SHIFT, key);
            } else {
                keys(key);
            }
        }
    }

    /** Types into a field until it holds just that: a busy window system may repeat a key that is held too long. */
    void typeJust(javax.swing.JTextField field, String words) {
        for (int i = 0; i < 5 && !ask(() -> field.getText().equals(words)); i++) {
            keys(KeyEvent.VK_CONTROL, KeyEvent.VK_A);
            type(words);
            pause(300);
        }
        until(words + " is typed", () -> field.getText().equals(words));
    }

    /** Gives the board the focus, so that the keys of the window act. */
    void atBoard() {
        ask(() -> {
            bench.board.requestFocusInWindow();
            return true;
        });
        until("the board has the focus", () -> bench.board.isFocusOwner());
    }

    /** Replaces what a spinner's field holds and enters it. */
    void typeInto(Component spinner, String value) {
        show(spinner);
        javax.swing.JTextField field = ask(() ->
                ((javax.swing.JSpinner.DefaultEditor) ((javax.swing.JSpinner) spinner).getEditor()).getTextField());
        click(field);
        until("the field has the focus", field::isFocusOwner);
        keys(KeyEvent.VK_CONTROL, KeyEvent.VK_A);
        type(value);
        keys(KeyEvent.VK_ENTER);
    }

    /** Chooses in a list that drops down: by click and arrow keys. */
    void choose(Component box, String what) {
        show(box);
        click(box);
        JComboBox<?> combo = (JComboBox<?>) box;
        until("the list drops down", combo::isPopupVisible);
        int wanted = ask(() -> {
            for (int i = 0; i < combo.getItemCount(); i++) {
                if (what.equals(combo.getItemAt(i))) {
                    return i;
                }
            }
            return -1;
        });
        if (wanted < 0) {
            throw new AssertionError(what + " is not offered");
        }
        int now = ask(combo::getSelectedIndex);
        for (int i = now; i != wanted; i += Integer.signum(wanted - now)) {
            keys(wanted > now ? KeyEvent.VK_DOWN : KeyEvent.VK_UP);
        }
        keys(KeyEvent.VK_ENTER);
        until(what + " is chosen", () -> what.equals(combo.getSelectedItem()));
    }

    /** Where a place of the foil is in the picture, pixels of the board. */
    Point onBoard(double x, double y) {
        return ask(() -> {
            BoardView b = bench.board;
            double[] p = b.camera().project(x, y, 0, b.getWidth(), b.getHeight());
            return new Point((int) Math.round(p[0]), (int) Math.round(p[1]));
        });
    }

    /** The finished board from straight above, at rest. */
    void fromAbove() {
        atBoard();
        keys(KeyEvent.VK_ESCAPE);
        keys(KeyEvent.VK_E);
        keys(KeyEvent.VK_1);
        until("the picture from above", () -> {
            var q = bench.board.shownRequest();
            return q != null
                    && q.camera().elevationRad() > 1.57
                    && q.board().timeS()
                            == Objects.requireNonNull(bench.model.scene()).endS()
                    && q.camera().equals(bench.board.camera());
        });
    }

    private static java.awt.@Nullable Window dialog() {
        for (java.awt.Window w : java.awt.Window.getWindows()) {
            if (w instanceof javax.swing.JDialog && w.isShowing()) {
                return w;
            }
        }
        return null;
    }

    /** Types a path into the file chooser that is open, and enters it. */
    static void answerChooser(Hands h, Path path) {
        until("a chooser is open", () -> dialog() != null);
        Hands.pause(500);
        ask(() -> {
            Objects.requireNonNull(dialog()).toFront();
            return true;
        });
        until("the chooser has the focus", () -> {
            java.awt.Window w = dialog();
            return w != null && w.isFocused();
        });
        Hands.pause(600);
        h.keys(KeyEvent.VK_CONTROL, KeyEvent.VK_A);
        h.type(path.toString());
        h.keys(KeyEvent.VK_ENTER);
    }
}

/**
 * The bench window: panels, input, the viewer's frames.
 *
 * <p>{@link foilproof.app.ui.BenchModel} holds all state (job, moment, side, conditions, camera, choice) and tells its
 * listeners; panels show it and change it; nothing else is shared. Whatever takes long runs in the background and comes
 * back on the event thread. The board itself is drawn off screen by the viewer and painted as an image, with words and
 * handles over it as vectors.
 */
@NullMarked
package foilproof.app.ui;

import org.jspecify.annotations.NullMarked;

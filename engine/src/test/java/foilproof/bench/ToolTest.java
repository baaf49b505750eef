package foilproof.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** Shapes of cutters against closed forms. */
class ToolTest {
    private static final double DEG = Math.PI / 180;

    @Test
    void shouldWidenAVShapedBitWithAFlatTipAsTheClosedFormSays() {
        // w = t + 2 d tan(phi/2): t 0.1, phi 30, d 0.1 gives 0.15359; phi 60 gives 0.21547 (closed form).
        Tool narrow = Tool.vFlatTip("a", 1, 30 * DEG, 0.1, Duty.ANY);
        assertThat(2 * narrow.radiusAtHeightMm(0.1)).isCloseTo(0.15359, within(1e-5));
        assertThat(2 * narrow.radiusAtHeightMm(0.0254)).isCloseTo(0.11361, within(1e-5));
        assertThat(2 * Tool.vFlatTip("b", 1, 60 * DEG, 0.1, Duty.ANY).radiusAtHeightMm(0.1))
                .isCloseTo(0.21547, within(1e-5));
        assertThat(narrow.radiusAtHeightMm(100)).isEqualTo(3.175 / 2);
    }

    @Test
    void shouldRoundAVShapedBitWithARoundTipAsTheClosedFormSays() {
        // r 0.127 (5 thou), 30 deg: tangent at 0.09413; d 0.0174 0.12833, 0.0254 0.15240, 0.0508 0.20320, 0.1 0.24849.
        Tool tool = Tool.vRoundTip("a", 1, 30 * DEG, 0.127, Duty.ANY);
        assertThat(2 * tool.radiusAtHeightMm(0.0174)).isCloseTo(0.12833, within(1e-5));
        assertThat(2 * tool.radiusAtHeightMm(0.0254)).isCloseTo(0.15240, within(1e-5));
        assertThat(2 * tool.radiusAtHeightMm(0.0508)).isCloseTo(0.20320, within(1e-5));
        assertThat(2 * tool.radiusAtHeightMm(0.1)).isCloseTo(0.24849, within(1e-5));
        assertThat(tool.radiusAtHeightMm(0)).isZero();
    }

    @Test
    void shouldShapeBallsDrillsAndFlatEndMills() {
        assertThat(Tool.flat("f", 1, 0.8, Duty.ANY).radiusAtHeightMm(0)).isEqualTo(0.4);
        assertThat(Tool.ball("b", 1, 1, Duty.ANY).radiusAtHeightMm(0.1)).isCloseTo(0.3, within(1e-12));
        assertThat(Tool.ball("b", 1, 1, Duty.ANY).radiusAtHeightMm(2)).isEqualTo(0.5);
        // Point length (D/2) cot(theta/2): 118 deg 0.300430, 130 deg 0.233154 per unit of D (closed form).
        assertThat(Tool.drill("d", 1, 1, 118 * DEG).pointLengthMm()).isCloseTo(0.300430, within(1e-6));
        assertThat(Tool.drill("d", 1, 1, 130 * DEG).pointLengthMm()).isCloseTo(0.233154, within(1e-6));
        assertThat(Tool.drill("d", 1, 0.8, 118 * DEG).radiusAtHeightMm(0.24034)).isCloseTo(0.4, within(1e-5));
        assertThat(Tool.flat("f", 1, 0.8, Duty.ANY).radiusAtHeightMm(-0.001)).isZero();
    }

    @Test
    void shouldCutWiderByTheRunout() {
        Tool tool = Tool.flat("f", 1, 0.79375, Duty.ANY);
        Tool wobbling = new Tool(
                tool.name(),
                tool.number(),
                tool.shape(),
                tool.diameterMm(),
                0,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                tool.flutes(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                0.0127,
                true,
                OptionalDouble.empty(),
                Duty.ANY);
        // D + total indicator reading: 0.79375 + 0.0127 = 0.80645 (closed form).
        assertThat(2 * wobbling.cutRadiusAtHeightMm(1)).isCloseTo(0.80645, within(1e-12));
    }

    @Test
    void shouldGiveTwoReadingsOfAnUnknownTipAndNoShapeOfItsOwn() {
        Tool known = Tool.vFlatTip("a", 1, 30 * DEG, 0.1, Duty.ANY);
        Tool unknown = new Tool(
                "a",
                known.number(),
                ToolShape.V,
                3.175,
                known.includedAngleRad(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.of(3.175),
                known.flutes(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                0,
                true,
                OptionalDouble.empty(),
                Duty.ANY);
        assertThat(unknown.tipUnknown()).isTrue();
        assertThatThrownBy(() -> unknown.radiusAtHeightMm(0.1)).isInstanceOf(IllegalStateException.class);
        List<Tool> readings = unknown.readings(Limits.DEFAULT.with(LimitKey.UNKNOWN_TIP_WIDTH, 0.127));
        // The same 0.127 as a flat cuts 0.181 at 0.10, as a radius 0.248 (closed form).
        assertThat(2 * readings.get(0).radiusAtHeightMm(0.1)).isCloseTo(0.18059, within(1e-5));
        assertThat(2 * readings.get(1).radiusAtHeightMm(0.1)).isCloseTo(0.24849, within(1e-5));
        assertThat(known.readings(Limits.DEFAULT)).containsExactly(known);
    }
}

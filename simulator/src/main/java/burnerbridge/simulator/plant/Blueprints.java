package burnerbridge.simulator.plant;

import burnerbridge.simulator.plant.BoilerSettings.Identity;
import burnerbridge.simulator.plant.BoilerSettings.Limits;
import burnerbridge.simulator.plant.BoilerSettings.Load;
import burnerbridge.simulator.plant.BoilerSettings.Medium;
import burnerbridge.simulator.plant.BoilerSettings.Times;
import burnerbridge.simulator.plant.fire.FiringCurve;
import burnerbridge.simulator.plant.fire.FiringCurve.Point;
import burnerbridge.simulator.plant.fire.Fuel;
import burnerbridge.simulator.plant.fire.FuelSettings;
import burnerbridge.simulator.plant.vessel.LoadRange;
import java.time.Duration;
import java.util.List;
import java.util.Map;

/**
 * How the boilers of Quillmere Glasshouses are built. Their times are shorter than those of real ones, so
 * that a cycle can be watched; nothing of it is to be copied to a burner.
 */
public final class Blueprints {
    private Blueprints() {}

    /** A gas boiler of 600 kW. */
    public static BoilerSettings boiler1() {
        return new BoilerSettings(
                new Identity("QG-HW 600", "QG104417", "3.07", 12),
                Medium.WATER,
                600,
                2000,
                Duration.ofSeconds(150),
                Duration.ofSeconds(6),
                new Times(seconds(12), seconds(3), seconds(8), seconds(5), seconds(1)),
                new LoadRange(78, 75, 80.5, 98),
                new Load(9, seconds(40)),
                new Limits(3, 6, 210, 1.5, 0),
                Map.of(Fuel.GAS, new FuelSettings(20, seconds(4), seconds(4), 25, gasCurve())),
                new Totals(
                        Map.of(Fuel.GAS, 74_213L),
                        61,
                        Map.of(Fuel.GAS, 8214.25),
                        Map.of(Fuel.GAS, 312_440.0),
                        2_961_880,
                        21_904));
    }

    /** An older and smaller gas boiler. */
    public static BoilerSettings boiler2() {
        return new BoilerSettings(
                new Identity("QG-OLD HW", "00731925", "1.64", 4),
                Medium.WATER,
                420,
                1500,
                Duration.ofSeconds(190),
                Duration.ofSeconds(8),
                new Times(seconds(15), seconds(4), seconds(10), seconds(6), seconds(1)),
                new LoadRange(74, 70, 77.5, 95),
                new Load(7, seconds(50)),
                new Limits(3, 8, 230, 1.2, 0),
                Map.of(Fuel.GAS, new FuelSettings(25, seconds(5), seconds(5), 22, oldCurve())),
                new Totals(
                        Map.of(Fuel.GAS, 148_213L),
                        377,
                        Map.of(Fuel.GAS, 31_877.4),
                        Map.of(Fuel.GAS, 861_004.7),
                        8_020_311,
                        98_412));
    }

    /** A steam boiler for gas and light oil. */
    public static BoilerSettings steam1() {
        return new BoilerSettings(
                new Identity("QG-ST DF", "QS000288", "5.20", 3),
                Medium.STEAM,
                1400,
                16_000,
                Duration.ofSeconds(170),
                Duration.ofSeconds(7),
                new Times(seconds(14), seconds(4), seconds(9), seconds(6), seconds(1)),
                new LoadRange(8, 7.3, 8.6, 10),
                new Load(45, seconds(45)),
                new Limits(3, 6, 280, 1.5, 25),
                Map.of(
                        Fuel.GAS, new FuelSettings(18, seconds(4), seconds(4), 25, gasCurve()),
                        Fuel.OIL, new FuelSettings(30, seconds(5), seconds(4), 9, oilCurve())),
                new Totals(
                        Map.of(Fuel.GAS, 9_871L, Fuel.OIL, 412L),
                        44,
                        Map.of(Fuel.GAS, 6_120.5, Fuel.OIL, 233.75),
                        Map.of(Fuel.GAS, 498_120.25, Fuel.OIL, 17_804.5),
                        5_021_377.125,
                        14_006));
    }

    private static FiringCurve gasCurve() {
        return new FiringCurve(List.of(
                new Point(15, 15.9, 21.3, 48.4),
                new Point(30, 25.8, 30.6, 57.3),
                new Point(50, 39.0, 43.0, 69.0),
                new Point(75, 55.5, 58.5, 83.6),
                new Point(100, 72.0, 74.0, 98.3)));
    }

    private static FiringCurve oldCurve() {
        return new FiringCurve(List.of(
                new Point(20, 18, 22, 55),
                new Point(40, 32, 36, 66),
                new Point(60, 46, 49, 77),
                new Point(80, 59, 62, 88),
                new Point(100, 71, 76, 99)));
    }

    private static FiringCurve oilCurve() {
        return new FiringCurve(List.of(
                new Point(25, 20.4, 24.2, 55.0),
                new Point(40, 30.1, 34.0, 64.5),
                new Point(60, 43.3, 46.9, 77.0),
                new Point(80, 56.0, 60.2, 88.5),
                new Point(100, 69.5, 73.1, 99.0)));
    }

    private static Duration seconds(long seconds) {
        return Duration.ofSeconds(seconds);
    }
}

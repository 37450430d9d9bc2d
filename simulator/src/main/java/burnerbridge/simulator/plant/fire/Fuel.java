package burnerbridge.simulator.plant.fire;

import burnerbridge.simulator.value.Named;

/**
 * What a burner can burn. The figures are those of the fuels in general: net heating values, the carbon
 * dioxide of a flue gas without oxygen, and the factors of Siegert's formula for the flue gas loss (common
 * practice).
 */
public enum Fuel implements Named {
    /** Metered in m3. */
    GAS("gas", 10.3, 11.8, 0.66, 0.009),
    /** Light oil, metered in kg. */
    OIL("oil", 11.86, 15.4, 0.68, 0.007);

    private final String text;
    private final double kilowattHours;
    private final double mostCarbonDioxide;
    private final double lossA;
    private final double lossB;

    Fuel(String text, double kilowattHours, double mostCarbonDioxide, double lossA, double lossB) {
        this.text = text;
        this.kilowattHours = kilowattHours;
        this.mostCarbonDioxide = mostCarbonDioxide;
        this.lossA = lossA;
        this.lossB = lossB;
    }

    @Override
    public String text() {
        return text;
    }

    /** Heat in a m3 or kg, in kWh, net. */
    public double kilowattHours() {
        return kilowattHours;
    }

    /** Carbon dioxide of dry flue gas that holds so much oxygen, both in %. */
    double carbonDioxide(double oxygen) {
        return mostCarbonDioxide * Math.max(0, Combustion.AIR_OXYGEN - oxygen) / Combustion.AIR_OXYGEN;
    }

    /** The share of the heat that leaves with the flue gas, in %, net. */
    double flueGasLoss(double oxygen, double warmerThanAir) {
        return warmerThanAir * (lossA / (21 - oxygen) + lossB);
    }
}

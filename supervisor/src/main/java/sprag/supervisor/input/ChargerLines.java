package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** What the chargers say of themselves: that they are ready and without fault, which current they give, and at which voltage. */
public final class ChargerLines {
    /** How many chargers there can be. */
    public static final int MOST = 3;

    private static final Signal[] OK = {Signal.CHARGER_1_OK, Signal.CHARGER_2_OK, Signal.CHARGER_3_OK};
    private static final Signal[] CURRENT = {
        Signal.CHARGER_1_CURRENT_A, Signal.CHARGER_2_CURRENT_A, Signal.CHARGER_3_CURRENT_A
    };
    private static final Signal[] VOLTAGE = {
        Signal.CHARGER_1_VOLTAGE_V, Signal.CHARGER_2_VOLTAGE_V, Signal.CHARGER_3_VOLTAGE_V
    };
    private static final Output[] LIMIT = {Output.CHARGER_1_LIMIT_A, Output.CHARGER_2_LIMIT_A, Output.CHARGER_3_LIMIT_A
    };

    private final int count;
    private final boolean[] hasOk = new boolean[MOST];
    private final boolean[] hasCurrent = new boolean[MOST];
    private final boolean[] hasVoltage = new boolean[MOST];

    /** Finds out how many chargers the vehicle has and what each of them says.
     *
     * @param settings the vehicle's values
     */
    public ChargerLines(Settings settings) {
        count = (int) settings.get(Parameter.CHARGER_COUNT);
        for (int i = 0; i < MOST; i++) {
            hasOk[i] = settings.has(OK[i]);
            hasCurrent[i] = settings.has(CURRENT[i]);
            hasVoltage[i] = settings.has(VOLTAGE[i]);
        }
    }

    /** The output with the limit of a charger.
     *
     * @param charger 0 for the first
     * @return its share of the direct current
     */
    public static Output limit(int charger) {
        return LIMIT[charger];
    }

    /**
     * Whether a charger is well. One without a line is taken to be: its share is never given to another. One that should say what it
     * gives, and does not, is not.
     *
     * @param charger 0 for the first
     * @param in the readings
     * @return true when it is there, does not deny being well, and tells what it should tell
     */
    public boolean well(int charger, Readings in) {
        return charger < count
                && (!hasOk[charger] || in.isOn(OK[charger]))
                && (!hasCurrent[charger] || known(in.get(CURRENT[charger]), CURRENT[charger]))
                && (!hasVoltage[charger] || known(in.get(VOLTAGE[charger]), VOLTAGE[charger]));
    }

    /** The current that a charger says it gives.
     *
     * @param charger 0 for the first
     * @param in the readings
     * @return A, 0 or more; NaN when it does not say
     */
    public double currentA(int charger, Readings in) {
        double ampere = charger < count && hasCurrent[charger] ? in.get(CURRENT[charger]) : Double.NaN;
        return known(ampere, CURRENT[charger]) ? ampere : Double.NaN;
    }

    /** The current that all chargers say they give.
     *
     * @param in the readings
     * @return A, the sum of those that say; 0 when none does
     */
    public double sumA(Readings in) {
        double sumA = 0;
        for (int i = 0; i < MOST; i++) {
            double ampere = currentA(i, in);
            sumA += ampere == ampere ? ampere : 0;
        }
        return sumA;
    }

    /** The highest voltage that a charger measures.
     *
     * @param in the readings
     * @return V; 0 when none says
     */
    double highestV(Readings in) {
        double highestV = 0;
        for (int i = 0; i < MOST; i++) {
            double volts = i < count && hasVoltage[i] ? in.get(VOLTAGE[i]) : 0;
            highestV = known(volts, VOLTAGE[i]) && volts > highestV ? volts : highestV;
        }
        return highestV;
    }

    /** Whether every line that is there says no: on a plain lead without a plug switch, that no mains are there.
     *
     * @param in the readings
     * @return false also when a line is unknown
     */
    boolean allOff(Readings in) {
        boolean off = true;
        for (int i = 0; i < count; i++) {
            off &= !hasOk[i] || in.isOff(OK[i]);
        }
        return off;
    }

    /** Whether no charger is well.
     *
     * @param in the readings
     * @return true when nothing is left that could charge
     */
    boolean noneWell(Readings in) {
        return !well(0, in) && !well(1, in) && !well(2, in);
    }

    private static boolean known(double value, Signal signal) {
        return value >= signal.min && value <= signal.max;
    }
}

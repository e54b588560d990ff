package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** The lines on which the chargers say that they are ready and without fault. */
public final class ChargerLines {
    /** How many chargers there can be. */
    public static final int MOST = 3;

    private static final Signal[] OK = {Signal.CHARGER_1_OK, Signal.CHARGER_2_OK, Signal.CHARGER_3_OK};

    private final int count;
    private final boolean[] fitted = new boolean[MOST];

    /** Finds out how many chargers the vehicle has and which of them have a line.
     *
     * @param settings the vehicle's values
     */
    public ChargerLines(Settings settings) {
        count = (int) settings.get(Parameter.CHARGER_COUNT);
        for (int i = 0; i < MOST; i++) {
            fitted[i] = settings.has(OK[i]);
        }
    }

    /** Whether a charger is well. One without a line is taken to be: its share is never given to another.
     *
     * @param charger 0 for the first
     * @param in the readings
     * @return true when it is there and does not deny being well
     */
    public boolean well(int charger, Readings in) {
        return charger < count && (!fitted[charger] || in.isOn(OK[charger]));
    }

    /** Whether every line that is there says no: on a plain lead without a plug switch, that no mains are there.
     *
     * @param in the readings
     * @return false also when a line is unknown
     */
    boolean allOff(Readings in) {
        boolean off = true;
        for (int i = 0; i < count; i++) {
            off &= !fitted[i] || in.isOff(OK[i]);
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
}

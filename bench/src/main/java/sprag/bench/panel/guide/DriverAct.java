package sprag.bench.panel.guide;

import sprag.bench.car.Lever;

/** What the guide may ask of the person at the levers. */
public enum DriverAct {
    /** The brake pedal. */
    PRESS_BRAKE(Lever.BRAKE, "Press the brake."),
    /** The brake pedal again. */
    LET_BRAKE_GO(Lever.BRAKE, "Let the brake go."),
    /** The accelerator pedal. */
    RELEASE_PEDAL(Lever.PEDAL, "Release the pedal."),
    /** The accelerator pedal again. */
    PRESS_PEDAL(Lever.PEDAL, "Press the pedal."),
    /** The start button. */
    LET_START_GO(Lever.START, "Let go of Start."),
    /** The start button again. */
    PRESS_START(Lever.START, "Press Start."),
    /** The key. */
    KEY_ON(Lever.KEY, "Turn the key on."),
    /** The key again. */
    KEY_OFF(Lever.KEY, "Turn the key off."),
    /** The direction lever, from neutral. */
    CHOOSE_DIRECTION(Lever.DIRECTION, "Choose a direction."),
    /** The direction lever, when it shows two directions or an unknown one. */
    ONE_DIRECTION(Lever.DIRECTION, "Choose one direction: both switches are on, or one is unknown."),
    /** The car. */
    STAND_STILL(Lever.BRAKE, "Come to a standstill."),
    /** The charging cable. */
    UNPLUG(Lever.PLUG, "Unplug."),
    /** The button at the supervisor. */
    SERVICE_RESET(Lever.SERVICE_RESET, "Press the service reset.");

    /** The lever that does it. */
    public final Lever lever;
    /** The sentence in the guide. */
    public final String words;

    DriverAct(Lever lever, String words) {
        this.lever = lever;
        this.words = words;
    }
}

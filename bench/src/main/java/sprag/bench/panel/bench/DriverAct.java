package sprag.bench.panel.bench;

/** What the guide may ask of the person at the levers. */
public enum DriverAct {
    /** The brake pedal. */
    PRESS_BRAKE("Press the brake."),
    /** The brake pedal again. */
    LET_BRAKE_GO("Let the brake go."),
    /** The accelerator pedal. */
    RELEASE_PEDAL("Release the pedal."),
    /** The accelerator pedal again. */
    PRESS_PEDAL("Press the pedal."),
    /** The start button. */
    LET_START_GO("Let go of Start."),
    /** The start button again. */
    PRESS_START("Press Start."),
    /** The key. */
    KEY_ON("Turn the key on."),
    /** The key again. */
    KEY_OFF("Turn the key off."),
    /** The direction lever, from neutral. */
    CHOOSE_DIRECTION("Choose a direction."),
    /** The direction lever, when it shows two directions or an unknown one. */
    ONE_DIRECTION("Choose one direction: both switches are on, or one is unknown."),
    /** The car. */
    STAND_STILL("Come to a standstill."),
    /** The charging cable. */
    UNPLUG("Unplug."),
    /** The button at the supervisor. */
    SERVICE_RESET("Press the service reset.");

    /** The sentence in the guide. */
    public final String words;

    DriverAct(String words) {
        this.words = words;
    }
}

/** Said to whoever examines items blind, in the place of what would tell which is which. */
export function HiddenFromYou() {
  return (
    <p>
      You examine this blind. Which item is which is hidden until conclusions are locked, and so is whatever would tell
      it.
    </p>
  );
}

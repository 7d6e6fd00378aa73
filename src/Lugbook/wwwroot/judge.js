// A refused number stays and is selected, so that the next one typed takes its place.
export function select(input) {
  input.focus({ preventScroll: true });
  input.select();
}

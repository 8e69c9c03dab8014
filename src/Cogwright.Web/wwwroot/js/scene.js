// Puts a drawing into its place.
export function show(place, svg) {
  place.innerHTML = svg;
}

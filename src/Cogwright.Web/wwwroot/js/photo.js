// Makes the photo chosen in a field small enough to keep: its longest side so many px at most, as JPEG. Drawing it anew also leaves
// behind what the camera has written into the file, the place among it.
export async function shrink(field, longest, quality) {
  const bitmap = await createImageBitmap(field.files[0]);
  const scale = Math.min(1, longest / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const paper = canvas.getContext("2d");
  // JPEG knows nothing transparent: it would come out black.
  paper.fillStyle = "white";
  paper.fillRect(0, 0, canvas.width, canvas.height);
  paper.imageSmoothingQuality = "high";
  paper.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", quality));
  if (!blob) throw new Error("no picture");
  return new Uint8Array(await blob.arrayBuffer());
}

// The shop's own part: what the size calculator found goes into the field of the basket.
document.querySelector("hat-size").addEventListener("hatsize", ({ detail }) => {
  document.getElementById("balls").value = detail.plan.sizes[0].yarn.to_buy.balls;
});

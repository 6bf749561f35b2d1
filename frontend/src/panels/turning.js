// A surface turned by pointer or keys. It is drawn when something moved, never in between.
import { AmbientLight, Box3, Color, DirectionalLight, DoubleSide, MeshStandardMaterial, PerspectiveCamera, Scene, Vector3, WebGLRenderer } from "three";
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
import { GLTFLoader } from "three/examples/jsm/loaders/GLTFLoader.js";

const STEP = Math.PI / 16;

export function turningPicture(stage, words) {
  const renderer = new WebGLRenderer({ antialias: true, preserveDrawingBuffer: true });
  renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
  const canvas = renderer.domElement;
  canvas.tabIndex = 0;
  canvas.setAttribute("role", "img");
  canvas.setAttribute("aria-label", words);
  stage.replaceChildren(canvas);

  const scene = new Scene();
  const camera = new PerspectiveCamera(32, 1, 0.01, 100);
  const light = new DirectionalLight(0xffffff, 2.4);
  light.position.set(-1.5, 2.5, 3);
  camera.add(light);
  scene.add(camera, new AmbientLight(0xffffff, 1.3));
  const controls = new OrbitControls(camera, canvas);
  controls.enablePan = false;
  controls.addEventListener("change", draw);

  function draw() {
    const { clientWidth: width, clientHeight: height } = stage;
    if (!width || !height) return;
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    camera.updateProjectionMatrix();
    scene.background = new Color(getComputedStyle(stage).getPropertyValue("background-color"));
    renderer.render(scene, camera);
  }

  function turn(sideways, up, nearer = 1) {
    const offset = camera.position.clone().sub(controls.target);
    const radius = offset.length() * nearer;
    let around = Math.atan2(offset.x, offset.z) + sideways;
    let tilt = Math.acos(Math.min(1, Math.max(-1, offset.y / offset.length()))) + up;
    tilt = Math.min(Math.PI - 0.05, Math.max(0.05, tilt));
    camera.position.set(radius * Math.sin(tilt) * Math.sin(around), radius * Math.cos(tilt), radius * Math.sin(tilt) * Math.cos(around)).add(controls.target);
    camera.lookAt(controls.target);
    controls.update();
    draw();
  }

  canvas.addEventListener("keydown", (event) => {
    const act = { ArrowLeft: [-STEP, 0], ArrowRight: [STEP, 0], ArrowUp: [0, -STEP], ArrowDown: [0, STEP], "+": [0, 0, 0.85], "=": [0, 0, 0.85], "-": [0, 0, 1.18] }[event.key];
    if (!act) return;
    event.preventDefault();
    turn(...act);
  });
  const watch = new ResizeObserver(draw);
  watch.observe(stage);
  let shown = null;

  return {
    // bytes of a GLB; afresh: looked at from the front again
    async show(bytes, afresh) {
      const { scene: made } = await new GLTFLoader().parseAsync(bytes, "");
      made.traverse((one) => {
        if (one.isMesh && !one.material) one.material = new MeshStandardMaterial({ color: 0xb9ad97 });
        if (one.isMesh) one.material.side = DoubleSide;
      });
      if (shown) {
        scene.remove(shown);
        forget(shown);
      }
      shown = made;
      const box = new Box3().setFromObject(made);
      const middle = box.getCenter(new Vector3());
      const size = box.getSize(new Vector3()).length() || 1;
      made.position.sub(middle);
      scene.add(made);
      camera.near = size / 100;
      camera.far = size * 20;
      if (afresh) camera.position.set(size * 0.55, size * 0.5, size * 1.55);
      controls.minDistance = size * 0.3;
      controls.maxDistance = size * 5;
      controls.update();
      draw();
    },
    leave() {
      watch.disconnect();
      controls.dispose();
      if (shown) forget(shown);
      renderer.dispose();
      renderer.forceContextLoss();
      canvas.remove();
    },
  };
}

function forget(made) {
  made.traverse((one) => {
    one.geometry?.dispose();
    for (const material of [one.material].flat()) {
      material?.map?.dispose();
      material?.dispose();
    }
  });
}

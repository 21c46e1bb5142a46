// A JupyterLab extension in one plain script. JupyterLab loads it, calls init(shared scope) and then get("./extension");
// that pair is all it needs, so no bundler is involved. Without the launcher's page setting it does nothing.
(() => {
  "use strict";

  const NAME = "pairing-explorer";
  const HIDDEN = "xp-code-hidden";
  const NO_SHORTCUTS = "data-lm-suppress-shortcuts"; // JupyterLab ignores its shortcuts for keys pressed there
  const CSS = `
    .${HIDDEN} .jp-CodeCell .jp-Cell-inputWrapper,
    .${HIDDEN} .jp-CodeCell .jp-OutputPrompt,
    .${HIDDEN} .jp-CodeCell .jp-Cell-outputCollapser,
    .${HIDDEN} .jp-Notebook-footer,
    .${HIDDEN} .jp-cell-toolbar,
    .${HIDDEN} .jp-NotebookPanel-toolbar > :not([data-jp-item-name^="${NAME}"], [data-jp-item-name="spacer"],
      [data-jp-item-name="restart-and-run"], [data-jp-item-name="executionProgress"]) { display: none; }
    .${HIDDEN} .jp-Notebook .jp-Cell { border: none; box-shadow: none !important; padding: 0; }
    .${HIDDEN} .jp-OutputArea-output { overflow: visible; }
  `;

  let scope;

  async function shared(name) {
    const versions = Object.values(scope[name]);
    const entry = versions.find((version) => version.loaded) ?? versions[0];
    return (await entry.get())();
  }

  // The code is shown or hidden, and with it JupyterLab's single-key commands: while the code is hidden, "d d" in the
  // workbench must not delete the cell that draws it. JupyterLab asks the element that has the focus, so each is marked.
  function setHidden(panel, button, hidden) {
    panel.toggleClass(HIDDEN, hidden);
    button.pressed = !hidden;
    if (hidden) return;
    for (const marked of panel.node.querySelectorAll(`[${NO_SHORTCUTS}="${NAME}"]`)) marked.removeAttribute(NO_SHORTCUTS);
  }

  function markFocus(panel, element) {
    if (panel.hasClass(HIDDEN) && !element.hasAttribute(NO_SHORTCUTS)) element.setAttribute(NO_SHORTCUTS, NAME);
  }

  async function run(panel, NotebookActions) {
    const say = (state) => { document.body.dataset.pairingExplorer = state; };
    say("opening");
    await Promise.all([panel.context.ready, panel.sessionContext.ready, panel.revealed]);
    const sound = await NotebookActions.runAll(panel.content, panel.sessionContext);
    await panel.context.save(); // else closing the page would ask about changes that the user never made
    say(sound ? "ready" : "failed");
  }

  async function extension() {
    const { INotebookTracker, NotebookActions } = await shared("@jupyterlab/notebook");
    const { PageConfig } = await shared("@jupyterlab/coreutils");
    const { ILabShell } = await shared("@jupyterlab/application");
    const { ICommandPalette, ToolbarButton } = await shared("@jupyterlab/apputils");

    function activate(app, tracker, shell, palette) {
      const target = PageConfig.getOption("pairingExplorerNotebook");
      if (!target) return;
      document.head.append(Object.assign(document.createElement("style"), { textContent: CSS }));
      const command = `${NAME}:toggle-code`;
      let toggle = () => {};
      app.commands.addCommand(command, { label: "Workbench: Show or Hide the Code", execute: () => toggle() });
      palette?.addItem({ command, category: "Pairing Explorer" });
      app.restored.then(() => shell?.collapseLeft());

      tracker.widgetAdded.connect((_, panel) => {
        if (panel.context.path !== target) return;
        const button = new ToolbarButton({
          label: "Show code",
          tooltip: "Show the code behind the workbench",
          pressedTooltip: "Hide the code behind the workbench",
          onClick: () => toggle(),
        });
        toggle = () => setHidden(panel, button, !panel.hasClass(HIDDEN));
        panel.toolbar.insertItem(0, `${NAME}-code`, button);
        panel.content.node.addEventListener("focusin", (event) => markFocus(panel, event.target));
        setHidden(panel, button, true);
        run(panel, NotebookActions).catch((error) => console.error(NAME, error));
      });
    }

    const plugin = {
      id: `${NAME}:workbench`,
      description: "Runs the workbench notebook and keeps its code out of the way.",
      autoStart: true,
      requires: [INotebookTracker],
      optional: [ILabShell, ICommandPalette],
      activate,
    };
    return { __esModule: true, default: plugin };
  }

  const container = {
    init: (given) => { scope = given; },
    get: async (module) => {
      if (module !== "./extension") throw new Error(`${NAME} has no module ${module}`);
      const loaded = await extension();
      return () => loaded;
    },
  };
  (window._JUPYTERLAB ??= {})[NAME] = container;
})();

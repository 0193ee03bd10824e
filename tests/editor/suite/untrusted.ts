import assert from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import * as vscode from 'vscode';
import { listen } from './messages.ts';
import { actionsAt, findingsOf, openManifest, ruleOf, runAll, withMore } from './testing.ts';

/** In a folder that nobody trusts: the text is checked, no photo is opened, nothing is started. */
export async function run(): Promise<void> {
  await runAll([
    {
      name: 'in a folder that is not trusted only the text is checked',
      run: async () => {
        assert.equal(vscode.workspace.isTrusted, false);
        const document = await openManifest('troubled', 'crops.yaml');
        const rules = findingsOf(document).map(ruleOf);
        assert.ok(rules.includes('manifest'), rules.join());
        assert.ok(!rules.includes('photo-missing') && !rules.includes('stale-measure'), rules.join());
      },
    },
    {
      name: 'in a folder that is not trusted no rule is fixed in all sessions',
      run: async () => {
        const document = await openManifest('harbour', 'crops.yaml');
        const before = document.getText();
        const finding = findingsOf(document).find((found) => ruleOf(found) === 'headroom');
        assert.ok(finding);
        const titles = (await withMore(await actionsAt(document, finding.range))).map(({ title }) => title);
        assert.ok(titles.includes('Fix every headroom in this file'), titles.join('; '));
        assert.ok(!titles.some((title) => /in all sessions/.test(title)), titles.join('; '));
        await vscode.commands.executeCommand('selvedge.fixRuleEverywhere', 'headroom');
        assert.equal(document.getText(), before);
      },
    },
    {
      name: 'in a folder that is not trusted nothing is compared with an earlier revision',
      run: async () => {
        const document = await openManifest('harbour', 'crops.yaml');
        const ear = listen();
        await vscode.commands.executeCommand('selvedge.review', document.uri, 'HEAD');
        ear.stop();
        assert.match(ear.heard().join(), /only in a folder that you trust/);
      },
    },
    {
      name: 'in a folder that is not trusted no session is begun',
      run: async () => {
        const proofs = vscode.Uri.joinPath(vscode.workspace.workspaceFolders![0]!.uri, 'harbour', 'proofs');
        // The editor does not know a command that it does not offer; whoever comes to it all the same is told.
        await Promise.resolve(vscode.commands.executeCommand('selvedge.newSession', proofs)).catch(() => undefined);
        assert.ok(!existsSync(vscode.Uri.joinPath(proofs, 'crops.yaml').fsPath));
      },
    },
    {
      name: 'in a folder that is not trusted no process is started',
      run: async () => {
        await openManifest('harbour', 'crops.yaml');
        const children = readdirSync('/proc')
          .filter((name) => /^\d+$/.test(name))
          .filter((name) => {
            try {
              return readFileSync(`/proc/${name}/cmdline`, 'utf8').includes('photo-room.js') &&
                readFileSync(`/proc/${name}/stat`, 'utf8').split(') ')[1]!.split(' ')[1] === String(process.pid); // prettier-ignore
            } catch {
              return false;
            }
          });
        assert.deepEqual(children, []);
      },
    },
  ]);
}

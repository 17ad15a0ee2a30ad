/** Panels behind tabs, one in front. */
import { type ReactElement, type ReactNode, Suspense } from 'react';
import { Tab, TabList, TabPanel, Tabs, type TabsProps } from 'react-aria-components';

export interface TabSetProps extends Omit<TabsProps, 'children'> {
  readonly label: string;
  readonly tabs: readonly { readonly id: string; readonly name: ReactNode; readonly panel: ReactNode }[];
  readonly panelClass: string;
  /** What stands about the row of tabs. */
  readonly head?: (list: ReactElement) => ReactElement;
}

export function TabSet({ label, tabs, panelClass, head = (list) => list, ...rest }: TabSetProps) {
  return (
    <Tabs {...rest}>
      {head(
        <TabList className="tab-list" aria-label={label}>
          {tabs.map(({ id, name }) => (
            <Tab key={id} id={id} className="tab">
              {name}
            </Tab>
          ))}
        </TabList>,
      )}
      {tabs.map(({ id, panel }) => (
        <TabPanel key={id} id={id} className={panelClass}>
          <Suspense>{panel}</Suspense>
        </TabPanel>
      ))}
    </Tabs>
  );
}

/** Version of the tool, as package.json has it; in every report. */
export const toolVersion = '0.1.0';
